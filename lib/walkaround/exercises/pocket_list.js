// Letters shrink until all stands on one page.
{
  const list = document.querySelector('main');
  const isOver = () => list.scrollHeight > list.clientHeight || list.scrollWidth > list.clientWidth;
  for (let size = 11; size > 5 && isOver(); size -= 0.1) list.style.fontSize = `${size}pt`;
}
