// The screen side of an answer box. All texts are set as text: nothing in a question or an answer is taken for HTML.
//
// Each message holds everything that is entered and goes out at once, in order. The widgets' own way to synchronise a
// value waits until the kernel has taken the one before: on a slow computer Enter would overtake what was typed.

let views = 0;

class AnswerView {
  constructor(model, root) {
    Object.assign(this, {model, root, page: model.get('page'), id: `wa-answer-${performance.now()}-${++views}`});
    this.patience = new Patience(() => this.notRunning());
    this.build();
    this.showEntry(model.get('entry'));
    this.take(model.get('now'));
    this.onNow = () => this.take(model.get('now'));
    this.onEntry = () => this.showEntry(model.get('entry'));
    this.onPage = () => this.rebuild();
    model.on('change:now', this.onNow);
    model.on('change:entry', this.onEntry);
    model.on('change:page', this.onPage);
  }

  build() {
    const {root, page, id} = this;
    root.classList.add('wa-answer');
    root.setAttribute('role', 'group');
    root.setAttribute('aria-labelledby', `${id}-title`);
    root.setAttribute('data-lm-suppress-shortcuts', 'true'); // JupyterLab leaves the keys to what is in here
    root.addEventListener('keydown', (event) => event.stopPropagation());
    this.check = this.button(page.kept ? 'Keep my answer' : 'Check my answer', () => this.say('check'));
    this.hint = this.button('Hint (free)', () => this.open(this.hint, 'hint'));
    this.worked = this.button('', () => this.open(this.worked, 'worked'));
    this.feedback = element('div', {className: 'wa-feedback', role: 'status'});
    this.hint.shows = element('p', {className: 'wa-hint', id: `${id}-hint`});
    this.worked.shows = element('div', {className: 'wa-worked', id: `${id}-worked`});
    for (const button of [this.hint, this.worked]) button.setAttribute('aria-controls', button.shows.id);
    root.append(
      element(`h${page.level}`, {className: 'wa-title', id: `${id}-title`}, unbroken(page.title)),
      element('p', {className: 'wa-text'}, unbroken(page.text)),
      ...(page.table.length ? [table(page.table)] : []),
      this[page.kind](),
      element('div', {className: 'wa-buttons'}, this.check, ...(page.kept ? [] : [this.hint]), ...(page.worked ? [this.worked] : [])),
      this.hint.shows, this.feedback, this.worked.shows,
    );
  }

  // The question is shown in other units: all is built anew, and what came of it stays.
  rebuild() {
    this.page = this.model.get('page');
    this.hinted = this.steps = undefined;
    this.root.replaceChildren();
    this.build();
    this.showEntry(this.model.get('entry'));
    this.take(this.model.get('now'));
  }

  button(text, onclick) {
    return element('button', {type: 'button', className: 'wa-button', onclick}, text);
  }

  // ---- a place for the answer, one way for each kind of question

  number() {
    const input = element('input', {type: 'text', autocomplete: 'off', spellcheck: false, placeholder: 'type a number'});
    input.addEventListener('input', () => this.enter(input.value));
    input.addEventListener('keydown', (event) => {
      if (!isAnswer(event)) return;
      this.enter(input.value, 'check');
    });
    this.showEntry = (entry) => { if (input.value !== entry) input.value = entry; };
    return element('label', {className: 'wa-entry'}, 'Your answer ', input, ` ${this.page.unit}`);
  }

  choice() {
    const input = (key) => element('input', {type: 'radio', name: this.id, onchange: () => this.enter(key)});
    return this.options('Your answer: choose one', input, (made, key, entry) => { made.checked = key === entry; });
  }

  choices() {
    const all = this.page.options.map(([key]) => key);
    const change = (key) => (event) => this.enter(ticked(this.model.get('entry'), key, event.target.checked, all));
    const input = (key) => element('input', {type: 'checkbox', onchange: change(key)});
    return this.options('Your answer: choose one or more', input, (made, key, entry) => { made.checked = entry.includes(key); });
  }

  order() {
    const places = ['–', ...this.page.options.map((_, i) => i + 1)];
    const change = (key) => (event) => this.enter(placed(this.model.get('entry'), key, event.target.value));
    const input = (key) => element('select', {onchange: change(key)}, ...places.map((text, i) => element('option', {value: i}, text)));
    return this.options('Your answer: give each step its number', input, (made, key, entry) => { made.value = entry[key] ?? 0; });
  }

  options(legend, input, show) {
    const inputs = this.page.options.map(([key, text]) => [input(key), key, text]);
    this.showEntry = (entry) => { for (const [made, key] of inputs) show(made, key, entry); };
    const rows = inputs.map(([made, , text]) => element('label', {className: 'wa-option'}, made, element('span', {}, text)));
    return element('fieldset', {}, element('legend', {}, legend), ...rows);
  }

  // ---- what goes out and what comes back

  enter(entry, press) {
    this.model.set('entry', entry); // for a view of this box that is shown later
    this.say(press);
  }

  say(press) {
    if (press) this.patience.begin();
    this.model.send({entry: this.model.get('entry'), ...(press && {press})});
  }

  // A text that is here opens and closes by its button; one that isn't is asked for.
  open(button, press) {
    if (!button.shows.textContent) this.say(press);
    else this.fold(button, !button.shows.hidden);
  }

  fold(button, hidden) {
    button.shows.hidden = hidden;
    button.setAttribute('aria-expanded', String(!hidden));
  }

  take(now) {
    this.patience.end();
    this.feedback.replaceChildren(...saidLines(now.said));
    this.worked.textContent = now.button;
    if (now.hint !== this.hinted) {
      this.hinted = now.hint;
      this.hint.shows.textContent = now.hint && `Hint: ${now.hint}`;
      this.fold(this.hint, !now.hint);
    }
    const steps = now.worked.join('\n');
    if (steps !== this.steps) {
      this.steps = steps;
      const list = element('ol', {}, ...now.worked.map((line) => element('li', {}, line)));
      this.worked.shows.replaceChildren(...(steps ? [element('p', {}, element('b', {}, 'Worked answer')), list] : []));
      this.fold(this.worked, !this.steps);
    }
  }

  notRunning() {
    this.feedback.replaceChildren(...noReply());
  }

  remove() {
    this.model.off('change:now', this.onNow);
    this.model.off('change:entry', this.onEntry);
    this.model.off('change:page', this.onPage);
    this.patience.end();
  }
}

export default {
  render({model, el}) {
    const view = new AnswerView(model, el);
    return () => view.remove();
  },
};
