// What the answer box decides without a page to show it on: tested by node.

const MARKS = {ok: '✓', stop: '✕', note: '•'};

// What came of an answer, a line each: the mark that stands beside its colour, the verdict, and the text.
export function lines(said) {
  return said.map(([verdict, text]) => ({mark: MARKS[verdict] ?? '', verdict, text}));
}

// A text in which a number keeps its unit beside it when the line breaks.
export function unbroken(text) {
  return text.replace(/(\d) (?=[^\d\s])/g, '$1\u00a0');
}

// Whether a key is an answer: an Enter that ends the composing of a character, or that is held down, is none.
export function isAnswer({key, isComposing, repeat}) {
  return key === 'Enter' && !isComposing && !repeat;
}

// The keys that are ticked after one of them has been turned on or off, in the order of all of them.
export function ticked(keys, key, on, all) {
  return all.filter((other) => (other === key ? on : keys.includes(other)));
}

// Places by key after one of them has been chosen; 0 stands for none.
export function placed(places, key, place) {
  return {...places, [key]: Number(place)};
}

// Waits for the kernel after a press, and tells when it takes too long.
export class Patience {
  constructor(late, limit = 5000, clock = globalThis) {
    Object.assign(this, {late, limit, clock, timer: null});
  }
  begin() {
    this.end();
    this.timer = this.clock.setTimeout(() => this.late(), this.limit);
  }
  end() {
    this.clock.clearTimeout(this.timer);
    this.timer = null;
  }
}
