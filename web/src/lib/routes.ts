/** Every page's address behind the "#". Words of the address are words of the page: state that a link can carry. */
export const routes = {
  bench: '/',
  newEngine: '/new',
  engine: '/jobs/:job',
  limits: '/jobs/:job/limits',
  sheet: '/jobs/:job/limits/sheet',
  byEye: '/jobs/:job/by-eye',
  strip: '/jobs/:job/strip',
  setting: '/jobs/:job/set/:for',
  round: '/jobs/:job/round/:part',
  verdict: '/jobs/:job/verdict',
  done: '/jobs/:job/done',
  devices: '/devices',
  pair: '/pair/:code',
  pairSeen: '/pair/:code/:fingerprint',
} as const;

export type RouteName = keyof typeof routes;
type Words<Path extends string> = Path extends `${string}:${infer Word}/${infer Rest}`
  ? Word | Words<Rest>
  : Path extends `${string}:${infer Word}`
    ? Word
    : never;
export type RouteWords<Name extends RouteName> = Readonly<Record<Words<(typeof routes)[Name]>, string>>;
export type Query = Readonly<Record<string, string>>;

/** A page, the words of its address, and what stands behind the "?". */
export type Route = {
  [Name in RouteName]: { readonly name: Name; readonly words: RouteWords<Name>; readonly query: Query };
}[RouteName];

export function href<Name extends RouteName>(name: Name, words: RouteWords<Name>, query: Query = {}): string {
  const given: Readonly<Record<string, string>> = words;
  const path = routes[name].replace(/:([a-z]+)/g, (_all, word: string) => encodeURIComponent(given[word] ?? ''));
  const asked = new URLSearchParams(query).toString();
  return `#${path}${asked === '' ? '' : `?${asked}`}`;
}

function wordsOf(pattern: string, path: string): Record<string, string> | null {
  const wanted = pattern.split('/');
  const given = path.split('/');
  if (wanted.length !== given.length) return null;
  const out: Record<string, string> = {};
  for (const [index, piece] of wanted.entries()) {
    const own = given[index] ?? '';
    if (piece.startsWith(':')) {
      if (own === '') return null;
      try {
        out[piece.slice(1)] = decodeURIComponent(own);
      } catch {
        return null;
      }
    } else if (piece !== own) return null;
  }
  return out;
}

/** The page of an address; null where there is none such. */
export function routeOf(hash: string): Route | null {
  const [path = '/', asked = ''] = hash.replace(/^#/, '').split('?');
  for (const name of Object.keys(routes) as RouteName[]) {
    const words = wordsOf(routes[name], path === '' ? '/' : path);
    if (words !== null) return { name, words, query: Object.fromEntries(new URLSearchParams(asked)) } as Route;
  }
  return null;
}
