// Runs the pages of the workbook when they are opened or their kernel has started anew, and leaves them where they stand.
// Only the workbook's own pages, by their place: what has been collected from students or came from anywhere else never
// runs by itself.
(() => {
  const OWN = /^((notebooks|exercises|solutions)\/\d|notebooks\/in-class\/)\d+-[A-Za-z0-9_-]+\.ipynb$/;
  const NARROW_PX = 700;
  const SETTLES_MS = 4000; // outputs of a page grow for some time after it has been run
  const SCROLLS_MS = 1000; // a turn of a wheel or a stroke of a finger moves the page for at most so long
  const LEAP_PX = 400; // farther than a hand scrolls in 40 ms

  function activate(app) {
    const begun = new WeakSet();

    // Where the reader stands, kept until the run is over and the page has settled, or until they point or type. Running
    // brings the last cell on the screen, and outputs that arrive push the page along: neither while someone reads.
    function hold(panel, run) {
      const outer = panel.node.querySelector('.jp-WindowedPanel-outer');
      if (!outer || outer.dataset.walkaroundHeld) return;
      outer.dataset.walkaroundHeld = 'yes';
      let top = outer.walkaroundTop ?? outer.scrollTop;
      let scrolled = 0; // when the reader last did
      const keep = () => {
        const now = performance.now();
        if (now < scrolled + SCROLLS_MS && Math.abs(outer.scrollTop - top) < LEAP_PX) top = outer.scrollTop;
        else outer.scrollTop = top;
      };
      const timer = setInterval(keep, 40);
      const follow = () => { scrolled = performance.now(); };
      const leave = () => {
        clearInterval(timer);
        delete outer.dataset.walkaroundHeld;
        for (const kind of ['wheel', 'touchmove']) outer.removeEventListener(kind, follow);
        for (const kind of ['mousedown', 'keydown']) outer.removeEventListener(kind, leave, true);
      };
      for (const kind of ['wheel', 'touchmove']) outer.addEventListener(kind, follow, {passive: true});
      // At once: a demonstration or a question keeps its keys to itself.
      for (const kind of ['mousedown', 'keydown']) outer.addEventListener(kind, leave, true);
      const settle = () => setTimeout(leave, SETTLES_MS);
      run.then(settle, settle);
    }

    // The place is noted while nothing runs, since running a page moves it before anyone hears of it.
    function note(panel) {
      const outer = panel.node.querySelector('.jp-WindowedPanel-outer');
      outer?.addEventListener('scroll', () => {
        clearTimeout(outer.walkaroundTimer);
        outer.walkaroundTimer = setTimeout(() => { outer.walkaroundTop = outer.scrollTop; }, 400);
      });
    }

    async function run(panel) {
      if (panel.isDisposed || app.shell.currentWidget !== panel) return;
      await app.commands.execute('notebook:run-all-cells');
      if (!panel.isDisposed) panel.content.activeCellIndex = 0;
    }

    async function begin(panel) {
      if (begun.has(panel) || !panel?.context || !panel.content?.widgets) return;
      begun.add(panel);
      await panel.context.ready;
      if (!OWN.test(panel.context.localPath ?? panel.context.path)) return;
      await panel.sessionContext.ready;
      note(panel);
      let waiting = true;
      const onStatus = (_, status) => {
        if (status === 'restarting' || status === 'autorestarting') waiting = true;
        else if (status === 'idle' && waiting) {
          waiting = false;
          run(panel);
        }
      };
      panel.sessionContext.statusChanged.connect(onStatus);
      panel.sessionContext.kernelChanged.connect(() => { waiting = true; });
      onStatus(null, panel.sessionContext.session?.kernel?.status);
    }

    window.walkaroundRunPage = () => run(app.shell.currentWidget);
    app.commands.commandExecuted.connect((_, {id, result}) => {
      const panel = app.shell.currentWidget;
      if (/run-all|restart-run-all/.test(id) && begun.has(panel)) hold(panel, result);
    });
    app.shell.currentChanged?.connect((_, {newValue}) => begin(newValue));
    app.restored.then(() => {
      // On a phone the open side bar would leave a strip for the page.
      if (window.innerWidth < NARROW_PX) app.shell.collapseLeft?.();
      begin(app.shell.currentWidget);
    });
  }

  const plugin = {id: 'walkaround-pages:run', autoStart: true, activate};
  (window._JUPYTERLAB ??= {})['walkaround-pages'] = {
    init: () => {},
    get: async () => () => ({__esModule: true, default: plugin}),
  };
})();
