// What may be written, where the cursor stands: offered by the compiler.

import { autocompletion } from '@codemirror/autocomplete';
import { byThumb } from './dom.js';
import { counted, position } from './text.js';

const KINDS = { word: 'keyword', choice: 'enum', name: 'variable', finding: 'text' };

/** Asks what may stand at the cursor of a state. */
export async function offered(compiler, state, at) {
  const [line, column] = counted(state.doc, at);
  return compiler.value({ offers: { text: state.doc.toString(), line, column } });
}

export function completing(compiler) {
  const source = async (context) => {
    const typed = context.matchBefore(/[a-z][a-z0-9.-]*/i);
    if (!typed && !context.explicit) return null;
    const { from, all } = await offered(compiler, context.state, context.pos);
    if (context.aborted || all.length === 0) return null;
    return {
      from: position(context.state.doc, from),
      options: all.map((own) => ({
        label: own.text,
        type: KINDS[own.kind],
        apply: own.kind === 'word' ? `${own.text} ` : own.text,
        info: [own.help, own.example].filter((text) => text !== '').join('\n') || undefined,
      })),
      validFor: /^[a-z0-9.-]*$/i,
    };
  };
  return autocompletion({
    override: [source],
    activateOnTyping: !byThumb(),
    icons: false,
    maxRenderedOptions: 60,
  });
}
