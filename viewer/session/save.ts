import type { SaveAnswer, SaveOrder } from '../../parts/index.js';

/** What came of saving: the program’s answer, or none (status 0), or a refusal without words. */
export type SaveReply =
  | SaveAnswer
  | { readonly status: 0 | 403 | 404 | 413 | 415 | 417; readonly body: { readonly error: string } };

/** Asks the program behind the page to write the machine file. */
export async function putFile(order: SaveOrder): Promise<SaveReply> {
  let response: Response;
  try {
    response = await fetch('file', {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(order),
    });
  } catch {
    return { status: 0, body: { error: 'the program behind this page has stopped; start it again' } };
  }
  try {
    return { status: response.status, body: await response.json() } as SaveReply;
  } catch {
    const error = `the program refused it without a word (status ${response.status})`;
    return { status: response.status, body: { error } } as SaveReply;
  }
}

/** In words for the builder. @param file name of the machine file */
export function saveInWords(reply: SaveReply, file: string): string {
  switch (reply.status) {
    case 200:
      return `written to ${file}`;
    case 409:
      return 'gone' in reply.body
        ? `not written: ${reply.body.gone}`
        : `not written: ${file} was changed by somebody else just now`;
    case 422: {
      const count = reply.body.problems.length;
      return `not written: ${count === 1 ? 'one value is' : `${count} values are`} wrong`;
    }
    default:
      return `not written: ${reply.body.error}`;
  }
}
