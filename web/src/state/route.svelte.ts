import { href, routeOf, type Query, type Route, type RouteName, type RouteWords } from '../lib/routes';

let route = $state<Route | null>(routeOf(location.hash));
addEventListener('hashchange', () => {
  route = routeOf(location.hash);
});

/** The page that the address names. */
export const address = {
  get route(): Route | null {
    return route;
  },
};

export function go<Name extends RouteName>(name: Name, words: RouteWords<Name>, query: Query = {}): void {
  location.hash = href(name, words, query);
}

/** Changes what stands behind the "?" without a step back being needed. */
export function keepInAddress<Name extends RouteName>(name: Name, words: RouteWords<Name>, query: Query): void {
  history.replaceState(null, '', href(name, words, query));
  route = routeOf(location.hash);
}
