// The server's address, and the folder of the notebook whose kernel has an id: both end in a slash.
async function serverPlace(kernel) {
  const base = JSON.parse(document.getElementById('jupyter-config-data').textContent).baseUrl;
  const sessions = await (await fetch(`${base}api/sessions`)).json();
  const path = sessions.find((session) => session.kernel?.id === kernel).path;
  return {base, folder: path.replace(/^\w+:/, '').replace(/[^/]*$/, '')};
}

// A path as a part of an address.
function inAddress(path) {
  return path.split('/').map(encodeURIComponent).join('/');
}

// The path of a file that a page in a folder links to, as a part of an address; a name may hold % or #.
function pathFrom(folder, link) {
  return new URL(inAddress(folder) + link, 'http://x/').pathname.slice(1);
}
