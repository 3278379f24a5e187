import type { Component } from 'svelte';
import type { Route, RouteName } from '../lib/routes';
import Bench from './bench/Bench.svelte';
import ByEye from './by-eye/ByEye.svelte';
import Devices from './devices/Devices.svelte';
import Pair from './devices/Pair.svelte';
import Done from './done/Done.svelte';
import Engine from './engine/Engine.svelte';
import Limits from './limits/Limits.svelte';
import Sheet from './limits/sheet/Sheet.svelte';
import NewEngine from './new-engine/NewEngine.svelte';
import Round from './round/Round.svelte';
import Setting from './setting/Setting.svelte';
import Strip from './strip/Strip.svelte';
import Verdict from './verdict/Verdict.svelte';

/** What every page is given: the words of its address and what stands behind the "?". */
export type PageProps<Name extends RouteName> = Pick<Extract<Route, { name: Name }>, 'words' | 'query'>;
/** Some pages need nothing of their address. */
type Pages = { readonly [Name in RouteName]: Component<PageProps<Name>> | Component<Record<string, never>> };

/** One page for each address; the compiler holds this table to lib/routes.ts. */
export const pages: Pages = {
  bench: Bench,
  newEngine: NewEngine,
  engine: Engine,
  limits: Limits,
  sheet: Sheet,
  byEye: ByEye,
  strip: Strip,
  setting: Setting,
  round: Round,
  verdict: Verdict,
  done: Done,
  devices: Devices,
  pair: Pair,
  pairSeen: Pair,
};

/** The table's component for a route that is only known to be one of them. */
export const pageOf = (route: Route): Component<{ words: Route['words']; query: Route['query'] }> =>
  pages[route.name] as unknown as Component<{ words: Route['words']; query: Route['query'] }>;
