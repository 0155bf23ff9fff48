import type { FastifyInstance } from 'fastify'

/**
 * Who may use a route: `open` anyone; `asset` anyone, kept by browsers; `link` whoever holds the link;
 * `staff` signed in; `office` signed in as the owner or as somebody of the office; `owner` as the owner. `roles.ts` says
 * the same by role.
 */
export type Access = 'open' | 'asset' | 'link' | 'staff' | 'office' | 'owner'

declare module 'fastify' {
  interface FastifyContextConfig {
    access?: Access
    /** Other sites' pages may post to it: it changes nothing, or believes a signature alone. */
    crossSite?: boolean
    /** For programs alone: faults are JSON too, whatever was asked for. */
    json?: boolean
  }
}

export interface RouteRow {
  method: string
  path: string
  access: Access
}

/** Collects every route as it is registered; one that does not say who may use it stops the start, as does a link's without a limit. */
export function collectRoutes(app: FastifyInstance): RouteRow[] {
  const rows: RouteRow[] = []
  app.addHook('onRoute', route => {
    const access = route.config?.access
    if (!access) throw new Error(`${route.method} ${route.url} does not say who may use it`)
    if (access === 'link' && !route.config?.rateLimit)
      throw new Error(`${route.method} ${route.url} does not say how often a link may be tried`)
    for (const method of [route.method].flat()) {
      if (method !== 'HEAD' && method !== 'OPTIONS') rows.push({ method, path: route.url, access })
    }
  })
  return rows
}

/** The table as text, sorted by path. */
export function printRoutes(rows: RouteRow[]): string {
  const sorted = [...rows].sort((a, b) => compare(a.path, b.path) || compare(a.method, b.method))
  const lines = sorted.map(row => `| ${row.method} | \`${row.path}\` | ${row.access} |`)
  return ['| method | path | who |', '|---|---|---|', ...lines].join('\n')
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}
