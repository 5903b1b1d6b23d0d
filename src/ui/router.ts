// Where the person is, as a path; deep links work because the server and the service worker answer every path with
// the app. Never reloads the page: a reload would cost the camera.

import { signal } from '@preact/signals';
import type { AuditId, PlaceId, RackId } from '../core/plan/identity.ts';

export type Route =
  | { screen: 'home' }
  | { screen: 'bring-in' }
  | { screen: 'desk-check' }
  | { screen: 'site-rules' }
  | { screen: 'plan'; rack?: RackId }
  | { screen: 'search'; text: string }
  | { screen: 'cable'; id: string }
  | { screen: 'start-audit' }
  | { screen: 'walk'; audit: AuditId; place: PlaceId | null }
  | { screen: 'differences'; audit: AuditId }
  | { screen: 'fixes'; audit: AuditId }
  | { screen: 'report'; audit: AuditId }
  | { screen: 'photos'; audit: AuditId }
  | { screen: 'renaming'; audit: AuditId; place: PlaceId | null }
  | { screen: 'describe'; audit: AuditId; what: 'rack' | 'unit' | null; label: string | null }
  | { screen: 'make-plan'; audit: AuditId }
  | { screen: 'labels'; audit: AuditId | null }
  | { screen: 'sync' }
  | { screen: 'help'; topic: string | null }
  | { screen: 'settings' }
  | { screen: 'not-found'; path: string };

function pathToRoute(path: string): Route {
  const url = new URL(path, 'http://asfound.invalid');
  const [first = '', second, third] = url.pathname.split('/').filter(Boolean).map(decode);
  const place = url.searchParams.get('at');
  switch (first) {
    case '':
      return { screen: 'home' };
    case 'bring-in':
    case 'desk-check':
    case 'site-rules':
    case 'start-audit':
    case 'sync':
    case 'settings':
      return { screen: first };
    case 'plan':
      return second ? { screen: 'plan', rack: second } : { screen: 'plan' };
    case 'search':
      return { screen: 'search', text: url.searchParams.get('for') ?? '' };
    case 'cable':
      if (second) return { screen: 'cable', id: second };
      break;
    case 'audit':
      if (!second) break;
      switch (third) {
        case 'describe': {
          const what = url.searchParams.get('what');
          const known = what === 'rack' || what === 'unit' ? what : null;
          return { screen: third, audit: second, what: known, label: url.searchParams.get('of') };
        }
        case 'walk':
        case 'renaming':
          return { screen: third, audit: second, place };
        case 'make-plan':
        case 'differences':
        case 'fixes':
        case 'report':
        case 'photos':
          return { screen: third, audit: second };
      }
      break;
    case 'labels':
      return { screen: 'labels', audit: second ?? null };
    case 'help':
      return { screen: 'help', topic: second ?? null };
  }
  return { screen: 'not-found', path };
}

function routeToPath(route: Route): string {
  switch (route.screen) {
    case 'home':
      return '/';
    case 'plan':
      return route.rack ? `/plan/${encodeURIComponent(route.rack)}` : '/plan';
    case 'search':
      return `/search?for=${encodeURIComponent(route.text)}`;
    case 'cable':
      return `/cable/${encodeURIComponent(route.id)}`;
    case 'describe': {
      const more = new URLSearchParams();
      if (route.what) more.set('what', route.what);
      if (route.label) more.set('of', route.label);
      return `/audit/${encodeURIComponent(route.audit)}/describe${more.size > 0 ? `?${more}` : ''}`;
    }
    case 'make-plan':
    case 'walk':
    case 'renaming':
    case 'differences':
    case 'fixes':
    case 'report':
    case 'photos': {
      const at = 'place' in route && route.place ? `?at=${encodeURIComponent(route.place)}` : '';
      return `/audit/${encodeURIComponent(route.audit)}/${route.screen}${at}`;
    }
    case 'labels':
      return route.audit ? `/labels/${encodeURIComponent(route.audit)}` : '/labels';
    case 'help':
      return route.topic ? `/help/${encodeURIComponent(route.topic)}` : '/help';
    case 'not-found':
      return route.path;
    default:
      return `/${route.screen}`;
  }
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const route = signal<Route>({ screen: 'home' });

/** Starts listening; called once by main.tsx. */
export function startRouter(): void {
  const read = () => {
    route.value = pathToRoute(location.pathname + location.search);
  };
  addEventListener('popstate', read);
  read();
}

export function go(to: Route, how: 'push' | 'replace' = 'push'): void {
  const path = routeToPath(to);
  if (how === 'replace') history.replaceState(null, '', path);
  else history.pushState(null, '', path);
  const samePage = route.peek().screen === to.screen && how === 'replace';
  route.value = to;
  // Going on within a screen leaves the person where they were reading.
  if (!samePage) scrollTo(0, 0);
}
