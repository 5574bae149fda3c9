// One script out of many modules.

import esbuild from 'esbuild';

/** The script of a module and all that it takes; `given` are modules that are made here. */
export async function bundled(entry, given) {
  const made = {
    name: 'made',
    setup(build) {
      build.onResolve({ filter: /^(table|licenses)$/ }, ({ path }) => ({ path, namespace: 'made' }));
      build.onLoad({ filter: /.*/, namespace: 'made' }, ({ path }) =>
        ({ contents: given[path], loader: 'json' }));
    },
  };
  const result = await esbuild.build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    metafile: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    charset: 'ascii',
    legalComments: 'none',
    loader: { '.case': 'text' },
    plugins: [made],
  });
  return { text: result.outputFiles[0].text.trim(), inputs: Object.keys(result.metafile.inputs) };
}
