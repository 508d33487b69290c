// What the stage works out by itself, without a page to show it on: tested by node alone.

// The sizes that show the most of a picture in a room of that many pixels, controls beside it or below it.
//   room {width, height}; picture [width, height]; sentence(width) its height when it is that wide;
//   larger: the picture may grow past its own size; below: whether the controls are below it already.
export function arrange(room, picture, sentence, larger = false, below = null) {
  const [w, h] = picture;
  const most = larger ? 4 : 1.25;
  const gap = 12;
  const beside = Math.max(250, Math.min(360, 0.3 * room.width));
  const under = Math.max(96, Math.min(190, 0.28 * room.height));
  const side = room.width - beside - gap;
  const scaled = (width, height) => Math.max(0.05, Math.min(most, width / w, height / h));
  const scaleSide = side > 240 ? scaled(side, room.height - sentence(side) - gap) : 0;
  const scaleStack = scaled(room.width, room.height - sentence(room.width) - under - 2 * gap);
  // Beside is easier for the hand: below has to show clearly more. Where a hand is already, it stays if that will do.
  const stacked = scaleSide < {null: 0.85, true: 1, false: 0.6}[below] * scaleStack;
  const scale = stacked ? scaleStack : scaleSide;
  const [width, height] = [Math.floor(scale * w), Math.floor(scale * h)];
  // Room that the picture can't use goes to the controls, unless the sentence then takes more lines.
  let controls = Math.max(beside, Math.min(420, room.width - gap - width));
  if (sentence(room.width - gap - controls) + height > room.height) controls = beside;
  return {stacked, controls: stacked ? room.width : controls, scale, width, height};
}

// A number as its control shows it.
export function written(value, decimals = 0) {
  return Number(value).toFixed(decimals).replace('-', '\u2212');
}

// A number as a hand typed it, held to the ends and steps of its control; null when it is none.
export function typed(text, {min, max, step}) {
  const plain = text.trim().replace('\u2212', '-').replace(',', '.');
  if (plain === '' || !Number.isFinite(Number(plain))) return null;
  const steps = Math.round((Number(plain) - min) / step);
  const value = min + steps * step;
  return Math.min(max, Math.max(min, Number(value.toFixed(10))));
}

// The next place of a slider that plays: at the end it stops.
export function nextPlace(value, {max}, step) {
  const next = Math.min(max, Number((value + step).toFixed(10)));
  return {value: next, ends: next >= max};
}

// Where a slider comes next if the hand goes on in the same way, a step at a time; null when that can't be told.
export function nextStep(before, now, {min, max, step}) {
  const next = Number((2 * now - before).toFixed(10));
  const goesOn = Math.abs(Math.abs(now - before) - step) < 1e-6 * step;
  return goesOn && next >= min && next <= max ? next : null;
}

// The pixels of runs: the colour of each one, then how many pixels each has.
export function spread(runs, size) {
  const pixels = new Uint32Array(size);
  const half = runs.length / 2;
  for (let i = 0, at = 0; i < half; i++) pixels.fill(runs[i], at, at += runs[half + i]);
  return pixels;
}

// At most two messages are on their way at a time, so that the kernel never waits for the screen; of what comes
// meanwhile the newest value of each control waits.
export class Sender {
  constructor(send, late, patience = 4000, clock = globalThis) {
    this.deliver = send;
    this.late = late;
    this.patience = patience;
    this.clock = clock;
    this.forget();
  }
  forget() {
    this.waiting = null;
    this.away = []; // the values in each message that has no answer yet
    this.lost = false;
    this.clock.clearTimeout(this.timer);
  }
  // What goes with the values, besides them, is replaced by what goes with newer ones.
  put(values, beside = {}) {
    this.waiting = {...this.waiting, ...values};
    this.beside = beside;
    this.next();
  }
  // What waits goes first, so that a hand's changes keep their order.
  send(message, patience) {
    if (message.all) this.lost = false;
    this.flush();
    this.post(message, {}, patience);
  }
  next() {
    if (this.away.length < 2) this.flush();
  }
  flush() {
    const values = this.waiting;
    this.waiting = null;
    if (values) this.post({set: values, ...this.beside}, values);
  }
  post(message, values, patience = this.patience) {
    this.away.push(values);
    this.wait(patience);
    this.deliver(message);
  }
  // What has had no answer for so long counts as lost: it no longer holds back what comes after it.
  wait(patience) {
    this.clock.clearTimeout(this.timer);
    this.timer = this.clock.setTimeout(() => {
      this.away = [];
      this.lost = true;
      this.late();
      this.next();
    }, patience);
  }
  // An answer came. After a silence the screen may lack what was lost in it, and asks for everything.
  answered() {
    this.away.shift();
    this.clock.clearTimeout(this.timer);
    if (this.away.length) this.wait(this.patience);
    this.next();
    if (this.lost) this.send({all: true});
  }
  // The newest values that no answer has taken in.
  get ahead() {
    return Object.assign({}, ...this.away, this.waiting);
  }
}

// Controls with the headings that they stand under: [{heading, names}].
export function groups(controls) {
  const found = [{heading: '', names: []}];
  for (const [name, control] of controls) {
    if (control.kind === 'heading') found.push({heading: control.label, names: []});
    else found[found.length - 1].names.push(name);
  }
  return found.filter((group) => group.names.length);
}
