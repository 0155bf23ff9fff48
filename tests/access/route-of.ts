import type { RouteRow } from '../../src/http/route-table.ts'

/** The route that an address leads to; undefined where there is none. */
export function routeOf(routes: RouteRow[], method: string, address: string): RouteRow | undefined {
  const path = address.split(/[?#]/, 1)[0]!
  const matches = (pattern: string) => new RegExp(`^${pattern.replace(/:\w+/g, '[^/]+')}$`).test(path)
  const found = routes.filter(route => route.method === method && matches(route.path))
  // What is written out stands before what is left open.
  return found.sort((a, b) => a.path.split(':').length - b.path.split(':').length)[0]
}
