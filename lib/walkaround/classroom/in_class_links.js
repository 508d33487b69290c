// What to show in class, with links to pages of the server that runs the desk.
async function address(model) {
  const {base, folder} = await serverPlace(model.get('kernel'));
  const inside = inAddress(folder + model.get('pages'));
  return (page) => `${base}${model.get('route')}/${inside}/${encodeURIComponent(page)}`;
}

function render({ model, el }) {
  function draw() {
    el.replaceChildren(...model.get('rows').map(([why, where, page]) => {
      const row = document.createElement('p');
      row.style = 'display: flex; align-items: center; gap: 12px; margin: 8px 0; font-size: 14px; line-height: 1.45';
      const words = document.createElement('span');
      words.textContent = `${why} ${where}`;
      row.append(words);
      if (page) {
        const link = document.createElement('a');
        Object.assign(link, { textContent: 'Show this in class', target: '_blank', rel: 'noopener' });
        link.className = 'jupyter-widgets jupyter-button widget-button';
        link.style = 'width: auto; flex: none; text-decoration: none; margin: 0';
        link.dataset.page = page;
        row.append(link);
      }
      return row;
    }));
    const links = [...el.querySelectorAll('a')];
    address(model).then(
      (of) => links.forEach((link) => { link.href = of(link.dataset.page); }),
      () => links.forEach((link) => link.replaceWith('In a terminal, “walkaround show” opens it.')),
    );
  }
  model.on('change:rows', draw);
  draw();
}

export default { render };
