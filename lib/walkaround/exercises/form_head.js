// The screen side of an exercise's head. All texts are set as text, and each message holds the whole name as it stands.

class HeadView {
  constructor(model, root) {
    Object.assign(this, {model, root});
    this.patience = new Patience(() => this.message.replaceChildren(...noReply()));
    this.build(model.get('page'));
    this.take(model.get('now'));
    this.onNow = () => this.take(model.get('now'));
    this.onName = () => { if (this.name.value !== model.get('name')) this.name.value = model.get('name'); };
    model.on('change:now', this.onNow);
    model.on('change:name', this.onName);
  }

  build(page) {
    const {root} = this;
    root.classList.add('wa-form');
    root.tabIndex = -1;
    root.setAttribute('data-lm-suppress-shortcuts', 'true'); // JupyterLab leaves the keys to what is in here
    root.addEventListener('keydown', (event) => event.stopPropagation());
    const {button} = this;
    this.name = element('input', {type: 'text', autocomplete: 'off', spellcheck: false, placeholder: page.placeholder, value: this.model.get('name')});
    this.name.addEventListener('input', () => this.say());
    this.name.addEventListener('keydown', (event) => { if (isAnswer(event)) this.say('begin'); });
    const others = element('select', {}, ...['choose a name …', ...page.known].map((text, i) => element('option', {value: i}, text)));
    others.addEventListener('change', () => {
      if (others.value === '0') return;
      this.name.value = page.known[others.value - 1];
      this.say('begin');
    });
    const who = element('div', {className: 'wa-who'}, element('label', {}, page.label, this.name), button('Begin', () => this.say('begin')));
    if (page.known.length > 1) who.append(element('label', {}, 'or go on as', others));
    this.units = element('select', {onchange: () => this.send({units: Number(this.units.value)})});
    this.choice = element('label', {className: 'wa-units'}, 'Units', this.units);
    this.message = element('div', {role: 'status'});
    this.scene = element('div', {});
    this.progress = element('p', {role: 'status'});
    this.back = button('Back', () => this.go(this.place - 1));
    this.list = element('select', {'aria-label': 'question', onchange: () => this.go(Number(this.list.value))});
    this.next = button('Next', () => this.go(this.place + 1));
    this.all = button('All questions', () => this.send({all: this.all.ariaPressed !== 'true'}));
    this.steps = element('nav', {className: 'wa-steps', 'aria-label': 'questions'}, this.back, this.list, this.next, this.all);
    this.actions = element('div', {className: 'wa-steps'});
    root.append(...(page.asks ? [who] : []), element('p', {hidden: !page.course}, page.course), this.message, this.scene, this.choice, this.progress, this.steps, this.actions);
  }

  say(press) {
    this.model.set('name', this.name.value); // for a view that is shown later
    this.send({name: this.name.value, ...(press && {press})}, press);
    this.pressed = press;
  }

  go(place) {
    this.send({place});
  }

  send(message, waits = true) {
    if (waits) this.patience.begin();
    this.model.send(message);
  }

  take(now) {
    this.patience.end();
    this.message.replaceChildren(...saidLines(now.said));
    const scene = JSON.stringify([now.scene, now.table]);
    if (scene !== this.shown) {
      this.shown = scene;
      this.scene.replaceChildren(element('p', {}, unbroken(now.scene)), ...(now.table.length ? [table(now.table)] : []));
    }
    const [names = [], place] = now.units;
    this.choice.hidden = !names.length;
    if (this.units.length !== names.length) this.units.replaceChildren(...names.map((name, value) => element('option', {value}, name)));
    this.units.value = place;
    this.progress.textContent = now.progress;
    this.steps.hidden = !now.titles.length;
    this.place = now.place;
    this.all.ariaPressed = String(now.all);
    this.all.hidden = now.all === null;
    this.offer(now.actions);
    const options = now.titles.map((text, value) => element('option', {value}, text));
    this.list.replaceChildren(...options);
    this.list.value = now.place;
    this.list.disabled = now.all;
    this.back.disabled = now.all || now.place === 0;
    this.next.disabled = now.all || now.place >= now.titles.length - 1;
    if (this.pressed && now.titles.length) {
      this.pressed = null;
      this.root.scrollIntoView(); // else the first question stands below the screen
    }
    if (now.begun > this.begun) this.root.focus(); // other questions, begun by a button below them
    this.begun = now.begun;
  }

  // The buttons are made anew only when they change, so that the one that has the focus keeps it.
  offer(actions) {
    const wanted = JSON.stringify(actions);
    if (wanted === this.offered) return;
    this.offered = wanted;
    this.actions.replaceChildren(...actions.map(([act, text]) => this.button(text, () => this.send({act}))));
  }

  button(text, onclick) {
    return element('button', {type: 'button', className: 'wa-button', onclick}, text);
  }

  remove() {
    this.model.off('change:now', this.onNow);
    this.model.off('change:name', this.onName);
    this.patience.end();
  }
}

export default {
  render({model, el}) {
    const view = new HeadView(model, el);
    return () => view.remove();
  },
};
