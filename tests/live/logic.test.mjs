import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';

const read = (file) => readFileSync(new URL(`../../lib/walkaround/live/${file}`, import.meta.url), 'utf8');
const source = read('screen.js') + read('logic.js');
const {MARKS, unbroken, arrange, written, typed, nextPlace, nextStep, Sender, groups, spread} = await import(
  `data:text/javascript;base64,${Buffer.from(source).toString('base64')}`
);

const PICTURE = [820, 490];
const sentence = (width) => 30 + 22 * Math.ceil(1500 / width);

test('picture and sentence fit every room, plain and larger', () => {
  for (let width = 300; width <= 2500; width += 37) {
    for (let height = 420; height <= 1400; height += 41) {
      for (const larger of [false, true]) {
        const plan = arrange({width, height}, PICTURE, sentence, larger);
        assert.ok(plan.width <= width && plan.height > 0, `${width} × ${height}`);
        const taken = plan.height + sentence(plan.stacked ? width : width - 12 - plan.controls);
        assert.ok(taken <= height, `${width} × ${height}: ${taken}`);
      }
    }
  }
});

test('larger never shows less', () => {
  for (let width = 300; width <= 2500; width += 23) {
    for (let height = 420; height <= 1400; height += 29) {
      const [plain, larger] = [false, true].map((l) => arrange({width, height}, PICTURE, sentence, l));
      assert.ok(larger.scale >= plain.scale - 1e-9 || larger.stacked !== plain.stacked, `${width} × ${height}`);
    }
  }
});

test('a wide room has the controls beside the picture, a narrow one below', () => {
  assert.equal(arrange({width: 1180, height: 640}, PICTURE, sentence).stacked, false);
  assert.equal(arrange({width: 360, height: 640}, PICTURE, sentence).stacked, true);
});

test('controls stay where a hand has them while words of another length come and go', () => {
  const words = (lines) => () => 30 + 22 * lines;
  const places = (below) => [1, 3].map((n) => arrange({width: 890, height: 560}, [820, 340], words(n), false, below).stacked);
  assert.deepEqual(places(null), [true, false]);
  assert.deepEqual(places(true), [true, true]);
  assert.deepEqual(places(false), [false, false]);
  assert.equal(arrange({width: 360, height: 640}, PICTURE, sentence, false, false).stacked, true);
});

test('numbers as they are written and typed', () => {
  assert.equal(written(-3, 1), '−3.0');
  const ends = {min: -20, max: 40, step: 0.5};
  assert.equal(typed('−3,6', ends), -3.5);
  assert.equal(typed(' 99 ', ends), 40);
  assert.equal(typed('', ends), null);
  assert.equal(typed('12x', ends), null);
  assert.equal(typed('29.921', {min: 28, max: 31, step: 0.01}), 29.92);
});

test('a slider that plays stops at its end', () => {
  assert.deepEqual(nextPlace(5, {max: 10}, 2), {value: 7, ends: false});
  assert.deepEqual(nextPlace(9, {max: 10}, 2), {value: 10, ends: true});
});

test('a slider that goes on a step at a time comes next to the next step', () => {
  const spec = {min: 0, max: 1, step: 0.1};
  assert.equal(nextStep(0.1, 0.2, spec), 0.3);
  assert.equal(nextStep(0.3, 0.2, spec), 0.1);
  assert.equal(nextStep(0.9, 1, spec), null);
  assert.equal(nextStep(0.2, 0.4, spec), null);
  assert.equal(nextStep(0.2, 0.2, spec), null);
  assert.equal(nextStep(undefined, 0.2, spec), null);
});

test('what goes beside the values is that of the newest', () => {
  const sent = [], sender = new Sender((message) => sent.push(message), () => {}, 4000, new Clock());
  sender.put({a: 1}, {next: {a: 2}});
  sender.put({a: 2}, {next: {a: 3}, shows: 4});
  sender.put({a: 3}, {next: {a: 4}});
  sender.put({b: 3});
  for (let answers = 0; answers < 4; answers += 1) sender.answered();
  assert.deepEqual(sent, [
    {set: {a: 1}, next: {a: 2}}, {set: {a: 2}, next: {a: 3}, shows: 4}, {set: {a: 3, b: 3}},
  ]);
});

class Clock {
  constructor() { this.calls = new Map(); this.count = 0; }
  setTimeout(call) { this.calls.set(++this.count, call); return this.count; }
  clearTimeout(which) { this.calls.delete(which); }
  run() {
    const due = [...this.calls.values()];
    this.calls.clear();
    for (const call of due) call();
  }
}

test('two messages are on their way at most, and the newest of each control waits', () => {
  const sent = [], clock = new Clock();
  const sender = new Sender((message) => sent.push(message), () => sent.push('late'), 4000, clock);
  for (const values of [{a: 1}, {c: 7}, {a: 2}, {b: 5}, {a: 3}]) sender.put(values);
  assert.deepEqual(sent, [{set: {a: 1}}, {set: {c: 7}}]);
  assert.deepEqual(sender.ahead, {a: 3, b: 5, c: 7});
  sender.answered();
  assert.deepEqual(sent.slice(2), [{set: {a: 3, b: 5}}]);
  assert.deepEqual(sender.ahead, {a: 3, b: 5, c: 7});
  sender.answered();
  assert.deepEqual(sender.ahead, {a: 3, b: 5});
  sender.answered();
  assert.deepEqual(sender.ahead, {});
  clock.run();
  assert.equal(sent.length, 3);
});

test('whoever waits for the second of two answers hears when it is late', () => {
  let late = 0;
  const clock = new Clock(), sender = new Sender(() => {}, () => { late += 1; }, 4000, clock);
  sender.put({a: 1});
  sender.put({a: 2});
  sender.answered();
  clock.run();
  assert.equal(late, 1);
});

test('who gets no answer says so', () => {
  let late = 0;
  const clock = new Clock();
  new Sender(() => {}, () => { late += 1; }, 4000, clock).put({a: 1});
  clock.run();
  assert.equal(late, 1);
});

test('after messages that are lost the controls work as before', () => {
  const sent = [], clock = new Clock();
  let late = 0;
  const sender = new Sender((message) => sent.push(message), () => { late += 1; }, 4000, clock);
  for (const values of [{a: 1}, {b: 2}, {a: 3}]) sender.put(values);
  clock.run();
  assert.equal(late, 1);
  assert.deepEqual(sent.slice(2), [{set: {a: 3}}]);
  sender.answered();
  assert.deepEqual(sent.slice(3), [{all: true}]); // the screen may lack what was lost
  sender.answered();
  assert.deepEqual(sender.ahead, {});
  sender.put({b: 4});
  sender.answered();
  clock.run();
  assert.deepEqual(sent.slice(4), [{set: {b: 4}}]);
  assert.equal(late, 1);
});

test('what a hand moved before it chose a preset does not change the preset', () => {
  const sent = [], sender = new Sender((message) => sent.push(message), () => {}, 4000, new Clock());
  for (const values of [{a: 1}, {a: 2}, {a: 3}]) sender.put(values);
  sender.send({preset: 0});
  for (let answers = 0; answers < 4; answers += 1) sender.answered();
  assert.deepEqual(sent, [{set: {a: 1}}, {set: {a: 2}}, {set: {a: 3}}, {preset: 0}]);
});

test('controls stand under their headings', () => {
  const rows = [['a', {kind: 'slider'}], ['_h', {kind: 'heading', label: 'Fuel'}], ['b', {kind: 'slider'}]];
  assert.deepEqual(groups(rows), [{heading: '', names: ['a']}, {heading: 'Fuel', names: ['b']}]);
});

test('every verdict has a mark of its own beside its colour', () => {
  assert.deepEqual(Object.keys(MARKS), ['ok', 'stop', 'note']);
  assert.equal(new Set(Object.values(MARKS)).size, 3);
});

test('a number stays beside its unit', () => {
  const [number, unit] = ['101.4', 'in'];
  assert.equal(unbroken(`arm ${number} ${unit}`), `arm ${number}\u00a0${unit}`);
  assert.equal(unbroken('of it used, 19 US gal'), 'of it used, 19\u00a0US gal');
  assert.equal(unbroken('52 °C (126 °F), 83 % of 1 h 14 min'), '52\u00a0°C (126\u00a0°F), 83\u00a0% of 1\u00a0h 14\u00a0min');
  assert.equal(unbroken('between 4 and 9'), 'between 4 and 9');
  assert.equal(unbroken('1 240 lb'), '1 240\u00a0lb');
});

test('runs of a colour become pixels', () => {
  assert.deepEqual([...spread(Uint32Array.of(7, 9, 4294967295, 4, 1, 2), 7)], [7, 7, 7, 7, 9, 4294967295, 4294967295]);
});
