import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'

const MOST_SITES = 20
const LONGEST = 4000
/** Where somebody tries a page out on the machine itself. */
const OWN_MACHINE = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/

/**
 * Reads which sites may show homeowners' pages in a frame: an address a line, of which its origin is kept, as
 * 'https://www.example.com'. None may be named.
 */
export function readSites(fields: FormFields): FormReading<string[]> {
  const typed = fields.lines('sites', { most: LONGEST, tooLong: 'That’s too long.' })
  const sites = new Set<string>()
  for (const line of typed.split('\n').map(one => one.trim())) {
    if (line === '') continue
    const site = originOf(line)
    if (site) sites.add(site)
    else fields.fault('sites', faultOf(line))
  }
  if (sites.size > MOST_SITES) fields.fault('sites', `Name ${MOST_SITES} sites at most.`)
  return fields.reading([...sites])
}

/** Writes which sites may show homeowners' pages from now on. */
export async function changeSites(deps: Deps, sites: string[]): Promise<void> {
  await deps.db.updateTable('business').set({ sites }).execute()
}

// What comes of it goes into a header: a URL's origin holds neither spaces nor what ends a part of it.
function originOf(line: string): string | null {
  const address =
    /^[a-z][a-z\d+.-]*:/i.test(line) && !/^[^/]+:\d+(\/|$)/.test(line) ? line : `https://${line}`
  if (/[\s*]/.test(line) || !URL.canParse(address)) return null
  const { protocol, hostname, origin, username, password } = new URL(address)
  if (username !== '' || password !== '' || !/^[a-z\d.:[\]-]+$/.test(hostname)) return null
  if (protocol === 'http:') return OWN_MACHINE.test(hostname) ? origin : null
  return protocol === 'https:' && (hostname.includes('.') || OWN_MACHINE.test(hostname)) ? origin : null
}

function faultOf(line: string): string {
  const shown = line.length > 60 ? `${line.slice(0, 60)}…` : line
  if (/^http:/i.test(line))
    return `“${shown}” isn’t secure. Only sites that begin with https:// can show the form.`
  return `“${shown}” isn’t the address of a site. Write it like https://www.example.com, one on each line.`
}
