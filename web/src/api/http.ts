import { schemas } from '../generated/schemas';
import type { RefusalProblem, Replies } from '../generated/wire';
import { bad, good, type Result } from '../lib/result';
import { misfit, type Schemas } from '../lib/schema';

/** Why there is no answer: nobody there, a refusal in sentences, or an answer that is none of ours. */
export type Trouble =
  | { readonly kind: 'away' }
  | { readonly kind: 'refused'; readonly status: number; readonly problems: readonly RefusalProblem[] }
  | { readonly kind: 'unreadable'; readonly what: string };
export type Answer<T> = Promise<Result<T, Trouble>>;

/** The rest of the page sets these two; nothing else is remembered here. */
export const speech: { language: string } = { language: 'en' };
let token: string | null = null;

/** Unknown until it has the shape that its schema says. */
export function validated<Name extends keyof Replies>(name: Name, value: unknown): Result<Replies[Name], Trouble> {
  const all = schemas as Schemas;
  const found = misfit(value, { $ref: `#/$defs/${name}` }, all, name);
  return found === null ? good(value as Replies[Name]) : bad({ kind: 'unreadable', what: found });
}

async function exchange(
  method: 'GET' | 'POST',
  path: string,
  body: BodyInit | null,
  type: string | null,
): Promise<Response | null> {
  const headers = new Headers({ 'Accept-Language': speech.language, Accept: 'application/json' });
  if (method === 'POST' && token !== null) headers.set('Fettle-Token', token);
  if (type !== null) headers.set('Content-Type', type);
  try {
    // A server that is half away must not hold up whoever measures.
    return await fetch(path, {
      // What was sent goes over although the page is closed meanwhile.
      keepalive: typeof body === 'string' && body.length < 30000,
      method,
      headers,
      body,
      cache: 'no-store',
      signal: AbortSignal.timeout(body instanceof Blob ? 120000 : 10000),
    });
  } catch {
    return null;
  }
}

async function bodyOf(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch {
    return null;
  }
}

async function read<Name extends keyof Replies>(name: Name, response: Response | null): Answer<Replies[Name]> {
  if (response === null) return bad({ kind: 'away' });
  const body = await bodyOf(response);
  if (response.ok) return validated(name, body);
  const refusal = validated('refusal', body);
  if (refusal.ok) return bad({ kind: 'refused', status: response.status, problems: refusal.value.problems });
  // Something between us and the server answers in its place.
  return bad(response.status >= 500 ? { kind: 'away' } : { kind: 'unreadable', what: String(response.status) });
}

export async function get<Name extends keyof Replies>(name: Name, path: string): Answer<Replies[Name]> {
  return read(name, await exchange('GET', path, null, null));
}

export async function hello(): Answer<Replies['hello']> {
  const answer = await get('hello', '/api/hello');
  if (answer.ok) token = answer.value.token;
  return answer;
}

/** A token that the server does not know any more (it was started anew) is asked for once. */
async function send<Name extends keyof Replies>(
  name: Name,
  path: string,
  body: BodyInit | null,
  type: string | null,
): Answer<Replies[Name]> {
  if (token === null) {
    const greeted = await hello();
    if (!greeted.ok) return greeted;
  }
  const answer = await read(name, await exchange('POST', path, body, type));
  if (answer.ok || answer.error.kind !== 'refused' || answer.error.status !== 403) return answer;
  const greeted = await hello();
  if (!greeted.ok) return greeted;
  return read(name, await exchange('POST', path, body, type));
}

export function post<Name extends keyof Replies>(name: Name, path: string, body: unknown): Answer<Replies[Name]> {
  return send(
    name,
    path,
    body === undefined ? null : JSON.stringify(body),
    body === undefined ? null : 'application/json',
  );
}

export function postFile<Name extends keyof Replies>(name: Name, path: string, file: Blob): Answer<Replies[Name]> {
  return send(name, path, file, file.type === '' ? 'application/octet-stream' : file.type);
}

/** A path whose words may hold anything. */
export function path(parts: TemplateStringsArray, ...words: readonly string[]): string {
  return parts.reduce(
    (out, part, index) => out + part + (index < words.length ? encodeURIComponent(words[index] ?? '') : ''),
    '',
  );
}

/** "?a=1&b=2" of what is given; nothing of what is not. */
export function asked(query: Readonly<Record<string, string | null | undefined>>): string {
  const given = Object.entries(query).filter(
    (pair): pair is [string, string] => pair[1] !== null && pair[1] !== undefined && pair[1] !== '',
  );
  return given.length === 0 ? '' : `?${new URLSearchParams(given).toString()}`;
}
