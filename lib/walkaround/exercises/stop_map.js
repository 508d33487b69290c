// The map of the walkaround: a drawing, and one list of stops whose numbers stand on the drawing, each a part of its link.
class MapView {
  constructor(model, root) {
    Object.assign(this, {model, root});
    root.classList.add('wa-form', 'wa-map');
    root.setAttribute('data-lm-suppress-shortcuts', 'true'); // JupyterLab leaves the keys to what is in here
    root.addEventListener('keydown', (event) => event.stopPropagation());
    this.said = element('p', {role: 'status'});
    this.who = element('label', {className: 'wa-others'});
    const plan = element('div', {className: 'wa-plan'});
    plan.innerHTML = model.get('drawing'); // the library's own drawing: nothing in it was typed
    this.list = element('ol', {});
    const print = element('button', {type: 'button', className: 'wa-button', onclick: () => this.print()}, 'Print the list for your pocket');
    const task = element('p', {className: 'wa-task'}, model.get('task').replaceAll('-', '\u2011'));
    const round = element('div', {className: 'wa-round'}, element('div', {}, plan, this.said, this.who, print, task), this.list);
    round.style.setProperty('--height', model.get('height'));
    root.append(element('div', {className: 'wa-space'}, round));
    this.place = serverPlace(model.get('kernel')).catch(() => null);
    this.onNow = () => this.take();
    model.on('change:now', this.onNow);
    this.take();
    // Whoever comes back from an exercise sees at once what has been done there.
    let away = false;
    this.seen = new IntersectionObserver(([{isIntersecting}]) => {
      if (away && isIntersecting) this.look();
      away = !isIntersecting;
    });
    this.seen.observe(root);
    this.onBack = () => { if (!document.hidden) this.look(); };
    document.addEventListener('visibilitychange', this.onBack);
  }

  look(student = this.model.get('now').student) {
    this.model.send({student});
  }

  link(file, folder, ...inside) {
    const a = element('a', {href: folder + file}, ...inside);
    this.place.then((place) => {
      if (!place) return;
      const path = pathFrom(place.folder, folder + file);
      a.href = `${place.base}lab/tree/${path}`;
      // JupyterLab opens it beside this page, without loading itself anew.
      a.dataset.commandlinkerCommand = 'docmanager:open';
      a.dataset.commandlinkerArgs = JSON.stringify({path: decodeURIComponent(path)});
    });
    return a;
  }

  stop(stop) {
    const disc = element('span', {className: 'wa-disc'}, String(stop.number));
    const row = element('li', {value: stop.number, className: `wa-stop wa-${stop.state.replace(' ', '-')}`},
      this.link(stop.file, '', disc, ` ${stop.title}`),
      element('span', {className: 'wa-question'}, ` ${stop.question}`),
      element('span', {className: 'wa-about'}, `${stop.about} · `, this.link(stop.file, '../exercises/', `Exercise\u00a0${stop.number}`), ' · ', element('span', {className: 'wa-says'}, unbroken(stop.says))),
    );
    for (const name of ['x', 'y', 'share']) row.style.setProperty(`--${name}`, stop[name]);
    return row;
  }

  take() {
    const now = this.model.get('now');
    const held = [...this.list.querySelectorAll('a')].indexOf(document.activeElement);
    this.said.textContent = unbroken(now.said);
    this.list.replaceChildren(...now.stops.map((stop) => this.stop(stop)));
    this.list.querySelectorAll('a')[held]?.focus({preventScroll: true});
    const options = [...(now.student ? [] : ['']), ...now.known].map((name) => element('option', {value: name, selected: name === now.student}, name));
    const others = element('select', {onchange: ({target}) => this.look(target.value)}, ...options);
    this.who.hidden = now.known.every((name) => name === now.student);
    if (document.activeElement?.parentElement !== this.who) this.who.replaceChildren('Show what was done by ', others);
  }

  print() {
    const address = URL.createObjectURL(new Blob([this.model.get('now').pocket], {type: 'text/html'}));
    const page = window.open(address);
    if (page) page.addEventListener('load', () => page.print());
    else this.said.textContent = 'The browser did not open the list: let this page open new windows, and press the button again.';
  }

  remove() {
    this.model.off('change:now', this.onNow);
    this.seen.disconnect();
    document.removeEventListener('visibilitychange', this.onBack);
  }
}

export default {
  render({model, el}) {
    const view = new MapView(model, el);
    return () => view.remove();
  },
};
