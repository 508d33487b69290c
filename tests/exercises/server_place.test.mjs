import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';

const file = new URL('../../lib/walkaround/exercises/server_place.js', import.meta.url);
const source = `${readFileSync(file, 'utf8')}\nexport {pathFrom};`;
const {pathFrom} = await import(`data:text/javascript;base64,${Buffer.from(source).toString('base64')}`);

test('a link leads to its file whatever the folders are called', () => {
  for (const folder of ['', 'notebooks/', 'C# and 100% sure?/notebooks/', 'a%41/Öl/notebooks/', 'a:b/notebooks/']) {
    assert.equal(decodeURIComponent(pathFrom(folder, '01-loading.ipynb')), `${folder}01-loading.ipynb`);
    assert.equal(
      decodeURIComponent(pathFrom(folder, '../exercises/01-loading.ipynb')),
      `${folder.replace('notebooks/', '')}exercises/01-loading.ipynb`,
    );
  }
});
