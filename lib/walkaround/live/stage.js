const KEYS = 'Keys: Tab goes from control to control, arrow keys move it, Space plays, R hides and shows the answer, Z enlarges the picture, F fills the screen.';
const REST_MS = 350; // after so long without a change the hand rests
const CONTROLS_PX = 150; // what an enlarged picture leaves to the controls below it
const SMALL = 0.75; // a picture at less than this share of its own size can be enlarged: its letters are small

class StageView {
  constructor(model, root) {
    this.model = model;
    this.root = root;
    this.id = `wa${Math.random().toString(36).slice(2)}`; // every stage runs a copy of this module
    this.views = {};
    this.values = {};
    this.forecasts = []; // what the kernel sent ahead: the next step, and the one back
    this.shows = null; // the number of the one that is shown, until the kernel has answered
    this.playing = null;
    this.watch = new ResizeObserver(() => this.layOut()); // a page may show this before it is built up
    this.sender = new Sender((message) => model.send(message), () => this.notRunning());
    this.build();
    this.takePage(model.get('page'));
    this.takeNow(model.get('now'));
    this.onMessage = (message, buffers) => this.take(message, buffers);
    model.on('msg:custom', this.onMessage);
    this.ask(3);
    this.watch.observe(root);
  }

  // Ask for the whole picture; where a page opens before its kernel listens, the first asking is lost.
  ask(times) {
    this.sender.late = () => (times > 1 ? this.ask(times - 1) : this.notRunning());
    this.sender.send({all: true}, 2500);
  }

  build() {
    const {root} = this;
    root.classList.add('wa-stage');
    root.setAttribute('data-lm-suppress-shortcuts', 'true'); // JupyterLab leaves the keys to what is in here
    this.title = element('h3', {className: 'wa-title'});
    this.caution = element('p', {className: 'wa-caution'});
    this.sentence = element('p', {className: 'wa-sentence'});
    this.more = element('p', {className: 'wa-more'});
    this.spoken = element('p', {className: 'wa-spoken', role: 'status', 'aria-live': 'polite'});
    this.canvas = element('canvas', {className: 'wa-picture', role: 'img'});
    this.pen = this.canvas.getContext('2d', {willReadFrequently: false});
    this.frame = element('div', {className: 'wa-frame'}, this.canvas);
    this.zoom = element('button', {type: 'button', className: 'wa-button wa-zoom', hidden: true, 'aria-pressed': 'false'}, 'Enlarge the picture');
    this.details = element('details', {className: 'wa-fold wa-details', hidden: true}, element('summary', {}, 'Details'), element('p', {}));
    this.gone = element('div', {className: 'wa-gone', hidden: true});
    this.curtain = element('p', {className: 'wa-curtain', hidden: true}, 'What will it say? Predict first; R shows the answer.');
    this.controls = element('div', {className: 'wa-controls', role: 'group'});
    this.larger = element('button', {type: 'button', className: 'wa-button', 'aria-pressed': 'false'}, 'Larger letters');
    this.full = element('button', {type: 'button', className: 'wa-button'}, 'Full screen');
    this.keys = element('p', {className: 'wa-keys'}, KEYS);
    this.units = element('select', {id: `${this.id}-units`});
    const units = element('span', {className: 'wa-units'}, element('label', {htmlFor: this.units.id}, 'Units'), this.units);
    this.tools = element('div', {className: 'wa-tools'}, this.larger, this.full, units, this.keys);
    this.told = element('div', {className: 'wa-told'}, this.sentence, this.more);
    this.side = element('div', {className: 'wa-side'}, this.curtain, this.told, this.gone, this.frame, this.zoom, this.spoken);
    this.column = element('div', {className: 'wa-column'}, this.controls, this.details, this.tools);
    this.body = element('div', {className: 'wa-body'}, this.column, this.side);
    this.head = element('div', {className: 'wa-head'}, this.title, this.caution);
    root.append(this.head, this.body);
    this.larger.addEventListener('click', () => this.setLarger(this.larger.ariaPressed !== 'true'));
    this.full.addEventListener('click', () => this.fillScreen());
    this.units.addEventListener('change', () => this.sender.send({units: Number(this.units.value)}));
    this.zoom.addEventListener('click', () => this.enlarge());
    this.canvas.addEventListener('click', (event) => {
      if (this.zoom.hidden) return;
      const {width, height} = this.canvas.getBoundingClientRect();
      this.enlarge([event.offsetX / width, event.offsetY / height]);
    });
    this.onFull = () => {
      root.classList.toggle('wa-full', document.fullscreenElement === root);
      this.full.textContent = document.fullscreenElement === root ? 'Leave full screen' : 'Full screen';
      this.layOut();
    };
    document.addEventListener('fullscreenchange', this.onFull);
    root.addEventListener('keydown', (event) => this.key(event));
    // A page that moves under a press loses it: what a press gives the keyboard to is brought into view after it.
    root.addEventListener('pointerdown', () => {
      const press = this.press = new AbortController();
      const up = () => {
        press.abort();
        if (press.target) this.keepInView(press.target);
      };
      for (const kind of ['pointerup', 'pointercancel']) window.addEventListener(kind, up, {capture: true, signal: press.signal});
    }, {capture: true});
    root.addEventListener('focusin', ({target}) => {
      if (this.press && !this.press.signal.aborted) this.press.target = target;
      else this.keepInView(target);
    });
    // The list of a select takes the end of the press that opened it.
    for (const kind of ['keydown', 'focusout']) {
      root.addEventListener(kind, ({relatedTarget}) => { if (!root.contains(relatedTarget)) this.press?.abort(); }, {capture: true});
    }
  }

  key(event) {
    const on = event.target;
    event.stopPropagation(); // the page around has keys of its own
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const typing = on.matches('input[type=text], select');
    const pressable = on.matches('button, input[type=checkbox], summary');
    if (event.key === ' ' && this.play && !typing && !pressable) {
      event.preventDefault();
      this.setPlaying(!this.playing);
    } else if (event.key.toLowerCase() === 'r' && !typing) {
      this.reveal();
    } else if (event.key.toLowerCase() === 'z' && !typing) {
      if (!this.zoom.hidden) this.enlarge();
    } else if (event.key.toLowerCase() === 'f' && !typing) {
      this.fillScreen();
    }
  }

  // For a class that predicts first: the answer is covered until the key is pressed again.
  reveal() {
    if (this.views.reveal) this.put('reveal', !this.values.reveal);
    else this.curtain.hidden = !this.root.classList.toggle('wa-covered');
  }

  fillScreen() {
    if (document.fullscreenElement === this.root) document.exitFullscreen();
    else this.root.requestFullscreen?.();
  }

  // In a narrow room the whole picture has small letters: enlarged it has its own size and moves in its frame, by
  // hand or with the arrow keys. `at` is where it was pressed, as shares of it: that place comes to the middle.
  enlarge(at = [0, 0]) {
    const on = this.zoom.ariaPressed !== 'true';
    this.zoom.ariaPressed = String(on);
    this.layOut();
    if (!on) return;
    this.frame.scrollLeft = at[0] * this.canvas.offsetWidth - this.frame.clientWidth / 2;
    this.frame.scrollTop = at[1] * this.canvas.offsetHeight - this.frame.clientHeight / 2;
  }

  setLarger(on) {
    this.larger.ariaPressed = String(on);
    this.root.classList.toggle('wa-larger', on);
    this.layOut();
  }

  // ---- controls

  takePage(page) {
    const specs = new Map(page.controls);
    const shape = JSON.stringify([page.title, page.caution, page.units, page.controls.map(([name, c]) => [name, c.kind])]);
    const known = new Map(this.page?.controls);
    this.page = page;
    if (this.shape === shape) {
      for (const [name, spec] of specs) if (JSON.stringify(spec) !== JSON.stringify(known.get(name))) this.views[name]?.fit?.(spec);
      return;
    }
    const focused = this.root.contains(document.activeElement) ? document.activeElement.dataset?.control : null;
    this.shape = shape;
    this.title.textContent = page.title;
    this.caution.replaceChildren(element('b', {}, 'Caution. '), page.caution);
    this.caution.hidden = !page.caution;
    this.root.setAttribute('role', 'group');
    this.root.setAttribute('aria-label', page.title);
    this.controls.setAttribute('aria-label', 'controls');
    this.takeUnits(page.units ?? []);
    this.views = {};
    this.play = null;
    const children = page.presets.length ? [this.presetView(page.presets)] : [];
    this.folds = [];
    for (const group of groups(page.controls)) {
      const rows = group.names.map((name) => this.viewOf(name, specs.get(name)));
      if (!group.heading) children.push(...rows);
      else {
        const fold = element('details', {open: true, className: 'wa-fold'}, element('summary', {}, group.heading), ...rows);
        this.folds.push(fold);
        children.push(fold);
      }
    }
    this.controls.replaceChildren(...children);
    if (focused) this.controls.querySelector(`[data-control="${CSS.escape(focused)}"]`)?.focus();
  }

  // The units that all is shown in: [names of the choices, place of the one that holds].
  takeUnits([names = [], place = 0]) {
    if (this.units.length !== names.length) {
      this.units.replaceChildren(...names.map((name, i) => element('option', {value: i}, name)));
    }
    this.units.value = place;
    this.units.parentElement.hidden = !names.length;
  }

  presetView(presets) {
    const id = `${this.id}-preset`;
    const choose = element('option', {value: ''}, 'choose one …');
    this.preset = element('select', {id}, choose, ...presets.map((name, i) => element('option', {value: i}, name)));
    this.preset.addEventListener('change', () => {
      if (this.preset.value !== '') this.sender.send({preset: Number(this.preset.value)});
    });
    return element('div', {className: 'wa-row'}, element('label', {htmlFor: id}, 'ready-made'), this.preset);
  }

  viewOf(name, spec) {
    const id = `${this.id}-${Object.keys(this.views).length}`;
    const view = this[`${spec.kind}View`](name, spec, id);
    this.views[name] = view;
    return view.row;
  }

  sliderView(name, spec, id) {
    const input = element('input', {type: 'range', id, 'data-control': name});
    const label = element('label', {htmlFor: id});
    const number = element('input', {type: 'text', inputMode: 'decimal', className: 'wa-number', autocomplete: 'off', title: 'click to type a number'});
    const row = element('div', {className: 'wa-row wa-slider'}, label, number, input);
    const view = {row, input, number};
    view.fit = (fresh) => {
      view.spec = fresh;
      [input.min, input.max, input.step] = [fresh.min, fresh.max, fresh.step];
      label.textContent = fresh.unit ? `${fresh.label}, ${fresh.unit}` : fresh.label;
      input.setAttribute('aria-label', fresh.name);
      number.setAttribute('aria-label', `${fresh.name}: number`);
      const ends = [fresh.min, fresh.max].map((end) => written(end, fresh.decimals).length);
      number.style.width = `${Math.max(...ends) + 2}ch`;
    };
    view.show = (value) => {
      input.value = value;
      const text = written(value, view.spec.decimals);
      if (document.activeElement !== number || !number.dataset.typing) number.value = text;
      input.setAttribute('aria-valuetext', view.spec.unit ? `${text} ${view.spec.unit}` : text);
    };
    view.fit(spec);
    input.addEventListener('input', () => {
      const value = Number(input.value);
      this.put(name, value, nextStep(this.values[name], value, view.spec));
    });
    number.addEventListener('input', () => { number.dataset.typing = 'yes'; });
    const take = () => {
      delete number.dataset.typing;
      const value = typed(number.value, view.spec);
      if (value === null || value === this.values[name]) view.show(this.values[name]);
      else this.put(name, value);
    };
    number.addEventListener('change', take);
    number.addEventListener('keydown', (event) => {
      const steps = {ArrowUp: 1, ArrowDown: -1}[event.key];
      if (event.key === 'Enter') take();
      else if (steps) {
        event.preventDefault();
        delete number.dataset.typing;
        const value = typed(String(this.values[name] + steps * view.spec.step), view.spec);
        this.put(name, value, nextStep(this.values[name], value, view.spec));
      }
    });
    number.addEventListener('focus', () => number.select());
    return view;
  }

  switchView(name, spec, id) {
    const input = element('input', {type: 'checkbox', id, 'data-control': name});
    input.addEventListener('change', () => this.put(name, input.checked));
    const row = element('div', {className: 'wa-row wa-switch'}, input, element('label', {htmlFor: id}, spec.label));
    return {row, input, show: (value) => { input.checked = value; }};
  }

  choiceView(name, spec, id) {
    const input = element('select', {id, 'data-control': name}, ...spec.options.map((text, i) => element('option', {value: i}, text)));
    input.addEventListener('change', () => this.put(name, Number(input.value)));
    const row = element('div', {className: 'wa-row'}, element('label', {htmlFor: id}, spec.label), input);
    return {row, input, show: (value) => { input.value = value; }};
  }

  countView(name, spec, id) {
    const input = element('input', {type: 'number', id, min: spec.min, max: spec.max, className: 'wa-number', 'data-control': name});
    input.addEventListener('input', () => {
      const value = typed(input.value, {min: spec.min, max: spec.max, step: 1});
      if (value !== null) this.put(name, value);
    });
    const row = element('div', {className: 'wa-row wa-count'}, element('label', {htmlFor: id}, spec.label), input);
    return {row, input, show: (value) => {
      const cleared = input.value === '' && document.activeElement !== input; // a hand may be about to type
      if (cleared || Number(input.value) !== value) input.value = value;
    }};
  }

  playerView(name, spec) {
    const button = element('button', {type: 'button', className: 'wa-button wa-play'}, 'Play');
    button.addEventListener('click', () => this.setPlaying(!this.playing));
    const start = element('button', {type: 'button', className: 'wa-button'}, 'To the start');
    start.addEventListener('click', () => {
      this.setPlaying(false);
      this.put(spec.moves, this.views[spec.moves].spec.min);
    });
    this.play = {button, spec};
    return {row: element('div', {className: 'wa-row wa-player'}, button, start), show: () => {}};
  }

  setPlaying(on) {
    const {button, spec} = this.play;
    button.textContent = on ? 'Pause' : 'Play';
    clearInterval(this.playing);
    this.playing = null;
    if (!on) return;
    const {moves} = spec;
    const slider = this.views[moves].spec;
    if (this.values[moves] >= slider.max) this.put(moves, slider.min);
    // Whoever asks for less motion gets a still picture every second in place of a moving one.
    const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    const times = calm ? Math.max(1, Math.round(1000 / spec.interval)) : 1;
    this.playing = setInterval(() => {
      if (this.sender.away.length) return;
      const next = nextPlace(this.values[moves], this.views[moves].spec, spec.step * times);
      this.put(moves, next.value, next.ends ? null : nextPlace(next.value, this.views[moves].spec, spec.step * times).value);
      if (next.ends) this.setPlaying(false);
    }, spec.interval * times);
  }

  // ---- what goes out and what comes back

  // `next` is the value that comes after this one if the hand goes on as it does, or null: the kernel works it out
  // ahead, and when it or the one before comes then, the picture is here already. A kernel that is two steps behind the
  // hand isn't asked for it.
  put(name, value, next = null) {
    this.values[name] = value;
    this.views[name].show(value);
    if (this.preset) this.preset.value = '';
    const {away} = this.sender;
    const beside = {units: this.page.units?.[1]}; // in which the value is meant
    if (next !== null && away.length < 2) beside.next = {[name]: next};
    if (!away.length && this.showAhead({[name]: value})) beside.shows = this.shows;
    this.sender.put({[name]: value}, beside);
  }

  // Show what the kernel sent ahead for some values, if it did: when the hand comes there, or when it is there already.
  showAhead(values) {
    const text = JSON.stringify(values);
    const ahead = this.forecasts.find(({asked}) => JSON.stringify(asked) === text);
    if (!ahead) return false;
    this.forecasts = [];
    this.shows = ahead.forecast;
    this.paint(ahead);
    this.takeWords(ahead);
    this.takeValues(ahead.values);
    return true;
  }

  take(message, buffers) {
    if (message.values) this.takeAnswer(message, buffers);
    let at = message.bands?.length ?? 0;
    for (const ahead of message.ahead ?? []) this.forecasts.push({...ahead, buffers: buffers.slice(at, at += ahead.bands.length)});
    if (message.ahead) this.showAhead(this.sender.away[0]);
  }

  takeAnswer(message, buffers) {
    const {came = null} = message;
    const ahead = this.forecasts.find(({forecast}) => forecast === came);
    this.forecasts = [];
    if (ahead) this.paint(ahead);
    else if (came !== this.shows) this.sender.send({all: true}); // the kernel takes this screen to show something else
    this.paint({...message, buffers});
    this.shows = null;
    this.gone.hidden = true;
    this.root.classList.remove('wa-lost');
    this.root.dataset.frames = Number(this.root.dataset.frames ?? 0) + 1;
    this.sender.late = () => this.notRunning();
    this.sender.answered();
    this.takeWords(message);
    this.takeValues(message.values);
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.rest(), REST_MS);
  }

  paint({page, size, bands, buffers}) {
    if (page) this.takePage(page);
    if (size && (this.canvas.width !== size[0] || this.canvas.height !== size[1])) {
      [this.canvas.width, this.canvas.height] = size;
      this.layOut();
    }
    bands.forEach(([left, top, width, height], i) => {
      const {buffer, byteOffset, byteLength} = buffers[i];
      const pixels = spread(new Uint32Array(buffer.slice(byteOffset, byteOffset + byteLength)), width * height);
      this.pen.putImageData(new ImageData(new Uint8ClampedArray(pixels.buffer), width, height), left, top);
    });
  }

  takeValues(values) {
    const {ahead} = this.sender;
    for (const [name, value] of Object.entries(values)) {
      if (name in ahead || !this.views[name]) continue; // moved on meanwhile, it keeps the hand's value
      this.values[name] = value;
      this.views[name].show(value);
    }
  }

  takeWords({verdict, words, more, details}) {
    const {said} = this;
    if (said?.verdict === verdict && said.words === words && said.more === more && said.details === details) return;
    this.root.dataset.verdict = verdict;
    this.sentence.replaceChildren(element('span', {className: 'wa-mark', 'aria-hidden': 'true'}, MARKS[verdict] ?? ''), ` ${unbroken(words)}`);
    this.more.textContent = unbroken(more ?? '');
    this.more.hidden = !more;
    this.said = {verdict, words, more, details};
    this.words = [words, more].filter(Boolean).join(' ');
    if (!this.canvas.ariaLabel) this.describe();
    this.details.lastChild.textContent = unbroken(details ?? '');
    this.details.hidden = !details;
    if (this.told.offsetHeight > this.kept) this.layOut();
  }

  // What a page that is saved shows when it is opened again, and what a new view begins with.
  takeNow(now) {
    if (!now || !now.words) return;
    this.takeWords(now);
    for (const [name, value] of Object.entries(now.values)) {
      this.values[name] = value;
      this.views[name]?.show(value);
    }
    [this.canvas.width, this.canvas.height] = now.size;
    this.describe();
    if (now.picture) {
      const image = new Image();
      image.onload = () => {
        if (this.root.dataset.frames) return;
        this.pen.drawImage(image, 0, 0); // the sentence that stands below it falls outside
        this.root.dataset.begun = 'yes';
      };
      image.src = now.picture;
    }
  }

  describe() {
    this.canvas.setAttribute('aria-label', `${this.words} ${this.said.details ?? ''}`.trim());
  }

  rest() {
    // The sentence is spoken, and kept for whoever saves the page, when the hand rests.
    this.spoken.textContent = this.words;
    this.describe();
    const picture = this.canvas.toDataURL('image/png');
    const size = [this.canvas.width, this.canvas.height];
    this.model.set('now', {...this.said, values: {...this.values}, picture, size});
    if (this.page) this.model.set('page', this.page);
  }

  notRunning() {
    this.root.classList.add('wa-lost');
    this.gone.hidden = false;
    const run = window.walkaroundRunPage; // of the workbook's own extension of JupyterLab
    const says = 'This demonstration is not running: its picture no longer follows the controls. ';
    const how = run
      ? element('button', {type: 'button', className: 'wa-button', onclick: run}, 'Run this page')
      : document.body.dataset.voila ? 'Load this page again.' : 'Open the menu Run at the top of the window and choose Run All Cells.';
    this.gone.replaceChildren(says, how);
    this.spoken.textContent = this.gone.textContent;
    this.layOut();
  }

  // ---- room

  // The part of the window that scrolls the page; output areas may scroll too, but are as high as what is in them.
  findAround() {
    this.around = this.root.closest('.jp-WindowedPanel-outer, .jp-LinkedOutputView') ?? document.documentElement;
    this.watch.observe(this.around);
  }

  layOut() {
    if (this.inLayOut || !this.root.isConnected || !this.canvas.width) return;
    if (!this.around) this.findAround();
    this.inLayOut = true;
    this.told.style.minHeight = '';
    const full = document.fullscreenElement === this.root;
    const larger = this.larger.ariaPressed === 'true';
    const view = full ? window.innerHeight : Math.min(this.around.clientHeight || window.innerHeight, window.innerHeight);
    const style = getComputedStyle(this.root);
    const inner = (full ? window.innerWidth : this.root.clientWidth) - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    const room = {width: inner, height: view - 18};
    const scaled = this.ownSize();
    // As long as the room is the same, the words keep what they have taken of it and the controls their place: nothing
    // jumps under a hand.
    const of = JSON.stringify([room, scaled, larger, full]);
    if (of !== this.of) [this.of, this.heights, this.below] = [of, {}, null];
    const sentence = (width) => this.heightOfWords(width);
    // A button that is hidden, though for an instant, loses the keyboard.
    const button = this.larger.offsetHeight + 10;
    let small = false;
    const wanted = () => {
      const whole = arrange(room, scaled, sentence, larger || full, this.below);
      small = whole.scale < SMALL;
      return small ? arrange(room, scaled, (width) => sentence(width) + button, larger || full, this.below) : whole;
    };
    let plan = wanted();
    if (larger) {
      // Larger never shows less: the letters give way first.
      this.root.classList.remove('wa-larger');
      const plain = arrange(room, scaled, sentence, full, this.below);
      this.root.classList.toggle('wa-larger', true);
      if (plain.scale > plan.scale) {
        this.root.classList.remove('wa-larger');
        plan = wanted();
      }
    }
    this.below = plan.stacked;
    this.zoom.hidden = !small;
    this.root.classList.toggle('wa-stacked', plan.stacked);
    this.body.style.setProperty('--wa-controls', `${plan.controls}px`);
    this.body.style.maxHeight = `${Math.floor(room.height)}px`;
    this.body.style.setProperty('--wa-room', this.body.style.maxHeight);
    const enlarged = this.zoom.ariaPressed === 'true' && small;
    const [width, height] = enlarged ? scaled : [plan.width, plan.height];
    [this.canvas.style.width, this.canvas.style.height] = [`${width}px`, `${height}px`];
    this.root.classList.toggle('wa-enlarged', enlarged);
    this.zoom.textContent = enlarged ? 'Show the whole picture' : 'Enlarge the picture';
    // Enlarged, it takes the room that the words leave; the controls keep theirs.
    const taken = sentence(this.side.clientWidth) + (small ? button : 0) + (plan.stacked ? CONTROLS_PX : 0);
    this.told.style.minHeight = `${this.kept}px`;
    this.frame.style.height = enlarged ? `${Math.max(plan.height, Math.min(height, room.height - taken))}px` : '';
    if (enlarged) this.frame.tabIndex = 0;
    else this.frame.removeAttribute('tabindex');
    if (plan.stacked !== this.wasStacked) {
      this.wasStacked = plan.stacked;
      this.folds?.forEach((fold, i) => { fold.open = !plan.stacked || i === 0; });
    }
    const scale = width * Math.min(devicePixelRatio || 1, 2) > 1.3 * scaled[0] ? 1.6 : 1;
    if (this.root.dataset.frames && scale !== (this.drawnAt ?? 1)) {
      this.drawnAt = scale;
      this.sender.send({scale});
    }
    this.inLayOut = false;
  }

  ownSize() {
    return this.page?.size ?? [this.canvas.width, this.canvas.height];
  }

  heightOfWords(width) {
    const before = this.side.style.width;
    this.side.style.width = `${width}px`;
    const letters = `${width} ${this.root.classList.contains('wa-larger')}`;
    this.kept = this.heights[letters] = Math.max(this.heights[letters] ?? 0, Math.ceil(this.told.getBoundingClientRect().height));
    const gone = this.gone.hidden ? 0 : this.gone.offsetHeight + 6;
    this.side.style.width = before;
    return 10 + this.kept + gone;
  }

  keepInView(target) {
    if (document.fullscreenElement === this.root) return;
    requestAnimationFrame(() => {
      const box = this.body.getBoundingClientRect();
      const around = this.around === document.documentElement ? {top: 0, bottom: window.innerHeight} : this.around.getBoundingClientRect();
      if (box.top < around.top || box.bottom > around.bottom) this.body.scrollIntoView({block: box.height > around.bottom - around.top ? 'start' : 'nearest'});
      const seen = this.column.getBoundingClientRect();
      const own = target.getBoundingClientRect();
      if (this.column.contains(target) && (own.top < seen.top + 6 || own.bottom > seen.bottom - 6)) target.scrollIntoView({block: 'nearest'});
    });
  }

  remove() {
    this.model.off('msg:custom', this.onMessage);
    document.removeEventListener('fullscreenchange', this.onFull);
    this.watch?.disconnect();
    clearInterval(this.playing);
    this.sender.forget();
    clearTimeout(this.resting);
    this.press?.abort();
  }
}

export default {
  render({model, el}) {
    const view = new StageView(model, el);
    return () => view.remove();
  },
};
