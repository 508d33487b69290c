// What questions and their form decide without a page to show it on: tested by node.

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
