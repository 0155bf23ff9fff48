import type { Role } from '../db/schema/accounts.ts'
import type { Access, RouteRow } from './route-table.ts'

/** What somebody may do by the role: which routes are theirs, by who these say may use them, and what pages leave out. */
interface May {
  opens: Access[]
  /** What the work costs and earns, and the rates behind a price. */
  seesCosts: boolean
  /** Where their day begins. */
  startsAt: string
}

export const ROLES: Record<Role, May> = {
  owner: { opens: ['staff', 'office', 'owner'], seesCosts: true, startsAt: '/queue' },
  office: { opens: ['staff', 'office'], seesCosts: false, startsAt: '/queue' },
  helper: { opens: ['staff'], seesCosts: false, startsAt: '/days' },
}

/** Whether requests, customers and prices are theirs to see, as they are all but the helpers'. */
export function worksInOffice({ role }: { role: Role }): boolean {
  return ROLES[role].opens.includes('office')
}

export function seesCosts({ role }: { role: Role }): boolean {
  return ROLES[role].seesCosts
}

/** By the path of each page of the staff, as the table of routes has it, whether a role may open it. */
export function pagesOf(role: Role, rows: RouteRow[]): Record<string, boolean> {
  const pages = rows.filter(({ method, access }) => method === 'GET' && ROLES.owner.opens.includes(access))
  return Object.fromEntries(pages.map(({ path, access }) => [path, ROLES[role].opens.includes(access)]))
}
