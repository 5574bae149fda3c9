// Texts from the device and back to it.

import { el } from './dom.js';

const KIND = { description: 'casewright text', accept: { 'text/plain': ['.case'] } };

/** Puts a file where the device puts its downloads. */
export function download(name, text, type = 'text/plain') {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = el('a', { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Lets the maker choose files: `[{ name, text, handle }]`; nothing where none was chosen. */
export async function chosen() {
  if (window.showOpenFilePicker) {
    try {
      const handles = await window.showOpenFilePicker({ multiple: true, types: [KIND] });
      return await Promise.all(handles.map(async (handle) => {
        const file = await handle.getFile();
        return { name: file.name, text: await file.text(), handle };
      }));
    } catch (error) {
      if (error.name === 'AbortError') return [];
      // A page that may not ask so asks the old way.
    }
  }
  return fromInput();
}

function fromInput() {
  return new Promise((resolve) => {
    const input = el('input', { type: 'file', multiple: true, accept: '.case,text/plain' });
    input.addEventListener('change', async () => {
      resolve(await Promise.all([...input.files].map(read)));
    });
    input.addEventListener('cancel', () => resolve([]));
    input.click();
  });
}

/** A file that was chosen or dropped. */
export async function read(file) {
  return { name: file.name, text: await file.text(), handle: null };
}

/** Writes a text where it came from, or where the maker says: its handle, if it has one now.
 *  `null` where it became a download, `undefined` where nothing was written. */
export async function written(name, text, handle) {
  if (!handle && !window.showSaveFilePicker) {
    download(name, text);
    return null;
  }
  try {
    const own = handle ?? await window.showSaveFilePicker({ suggestedName: name, types: [KIND] });
    const stream = await own.createWritable();
    await stream.write(text);
    await stream.close();
    return own;
  } catch (error) {
    if (error.name === 'AbortError') return undefined;
    download(name, text);
    return null;
  }
}
