import { expect } from 'vitest'
import type { GivenRole, Role } from '../../src/db/schema/accounts.ts'
import { ROLES } from '../../src/http/roles.ts'
import type { TestApp } from '../helpers/app.ts'
import { formsOf } from './forms.ts'
import type { Listener } from './listening.ts'
import { placesOf } from './pages-with-forms.ts'
import { routeOf } from './route-of.ts'

/**
 * Opens every page of the office and of helpers in each of its states, as everybody who may. Gives what is led to from there and
 * refused, or isn't there at all.
 */
export async function walkOfStaff(app: TestApp, ownerId: number, walkers: Record<GivenRole, Listener>) {
  const faults: string[] = []
  for (const [path, makes] of Object.entries(placesOf(app, ownerId))) {
    const { access } = routeOf(app.routes, 'GET', path)!
    // The other state of the outbox is one in which nothing is to be sent any more.
    const wanted = ROLES.office.opens.includes(access)
      ? makes.slice(0, path === '/outbox' ? 1 : undefined)
      : []
    for (const make of wanted) {
      const address = await make()
      for (const role of ['office', 'helper'] as const) {
        if (!ROLES[role].opens.includes(access)) continue
        const { said, status } = await walkers[role].open(path, address)
        if (status !== 200) faults.push(`${path} answers ${status} to the ${role}`)
        faults.push(...leadsAstray(app, role, address, said).map(fault => `${path} ${fault}`))
      }
    }
  }
  return [...new Set(faults)]
}

/** Types another amount, and offers another material, on the form of a price that was opened first: followed by the script, and without one. */
export async function changePrice({ heard, post }: Listener, number: string): Promise<void> {
  const form = formsOf(heard[0]!.said, `/queue/${number}/quote`).at(-1)!
  const standing = form.controls.filter(({ isSent }) => isSent).map(({ name, value }) => [name, value])
  const dearer = {
    ...Object.fromEntries(standing),
    ...{ 'lines.0.amount': '999.99', 'lines.0.reason': 'A slope', 'picks.0.finish': 'stone' },
  }
  for (const headers of [{ 'x-part': 'live' }, {}] as Record<string, string>[]) {
    const { said, status } = await post('/queue/:number/quote', `/queue/${number}/quote`, dearer, headers)
    expect([status, said]).toEqual([200, expect.stringContaining('What each change does')])
  }
}

function leadsAstray(app: TestApp, role: Role, address: string, said: string): string[] {
  const links = [...said.matchAll(/ href="(\/[^"]*)"/g)].map(([, path]) => ({ method: 'GET', path: path! }))
  const forms = formsOf(said, address).flatMap(({ method, address: path, buttons }) => [
    { method, path },
    ...buttons.flatMap(button => (button.address ? [{ method, path: button.address }] : [])),
  ])
  return [...links, ...forms].flatMap(({ method, path }) => {
    const route = routeOf(app.routes, method, path)
    if (!route) return [`leads the ${role} nowhere: ${method} ${path}`]
    const isOpen = !ROLES.owner.opens.includes(route.access) || ROLES[role].opens.includes(route.access)
    return isOpen ? [] : [`leads the ${role} to ${method} ${route.path}, which is refused`]
  })
}
