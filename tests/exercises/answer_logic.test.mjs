import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';

const source = readFileSync(new URL('../../lib/walkaround/exercises/answer_logic.js', import.meta.url), 'utf8');
const {isAnswer, ticked, placed, Patience} = await import(
  `data:text/javascript;base64,${Buffer.from(source).toString('base64')}`
);

test('Enter is an answer, unless it ends a character or is held down', () => {
  assert.ok(isAnswer({key: 'Enter', isComposing: false, repeat: false}));
  assert.ok(!isAnswer({key: 'Enter', isComposing: true, repeat: false}));
  assert.ok(!isAnswer({key: 'Enter', isComposing: false, repeat: true}));
  assert.ok(!isAnswer({key: 'a', isComposing: false, repeat: false}));
});

test('ticked keys keep the order of the options', () => {
  const all = ['a', 'b', 'c'];
  assert.deepEqual(ticked(['c'], 'a', true, all), ['a', 'c']);
  assert.deepEqual(ticked(['a', 'c'], 'a', false, all), ['c']);
  assert.deepEqual(ticked(['a', 'gone'], 'a', true, all), ['a']);
});

test('a place is a number, and the other places stay', () => {
  const before = {a: 1};
  assert.deepEqual(placed(before, 'b', '2'), {a: 1, b: 2});
  assert.deepEqual(before, {a: 1});
});

test('a kernel that does not answer is told once', () => {
  const calls = new Map(); let count = 0, late = 0;
  const clock = {setTimeout: (call) => { calls.set(++count, call); return count; }, clearTimeout: (n) => calls.delete(n)};
  const patience = new Patience(() => { late += 1; }, 5000, clock);
  patience.begin();
  patience.begin();
  assert.equal(calls.size, 1);
  for (const call of calls.values()) call();
  assert.equal(late, 1);
  patience.begin();
  patience.end();
  assert.equal(calls.size, 0);
});
