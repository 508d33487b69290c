// What every part of the workbook's own front end begins with.

export const MARKS = {ok: '✓', stop: '✕', note: '•'};

// A text in which a number keeps its unit beside it when the line breaks.
export function unbroken(text) {
  return text.replace(/(\d) (?!(?:and|or|to|of) )(?=(°[CF]|%|[a-zA-Z€][a-zA-Z/-]{0,6})(?![a-zA-Z]))/g, '$1\u00a0');
}

// A new element: what it has as a property is set as one, the rest as attributes.
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name in made && name !== 'list') made[name] = value;
    else made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}

// Rows of texts as a table, the first row as its head.
export function table([head, ...rows]) {
  const row = (tags) => (cells) => element('tr', {}, ...cells.map((text, i) => element(tags[i ? 1 : 0], {}, unbroken(text))));
  return element('table', {}, element('thead', {}, row(['th', 'th'])(head)), element('tbody', {}, ...rows.map(row(['th', 'td']))));
}

// What is said, rows of a verdict and a text, as lines with a mark beside the colour; a text without a verdict is plain.
export function saidLines(said) {
  return said.map(([verdict, text]) => {
    const mark = verdict ? [element('span', {'aria-hidden': 'true'}, `${MARKS[verdict]} `)] : [];
    return element('p', {className: verdict ? `wa-said wa-${verdict}` : ''}, ...mark, unbroken(text));
  });
}

// What stands where the kernel has not answered.
export function noReply() {
  const how = document.body.dataset.voila ? 'load this page again' : 'open the menu Run at the top of the window and choose Run All Cells';
  return saidLines([['stop', `No reply yet: this page is busy, or it is not running. If this line stays, ${how}.`]]);
}
