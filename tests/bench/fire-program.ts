import autocannon, { type Shot } from 'autocannon'

/** What to fire, at what, over how many connections and for how long. */
export interface Fire {
  url: string
  shots: Shot[]
  connections: number
  seconds: number
  /** From how many addresses it seems to come, as a proxy would tell. */
  addresses: number
}

export interface Fired {
  perSecond: number
  byStatus: Record<string, number>
}

let sent = 0
const told = JSON.parse(process.argv[2]!) as Fire
const from = (shot: Shot): Shot => {
  sent = (sent + 1) % told.addresses
  const address = `198.${18 + ((sent >> 16) & 1)}.${(sent >> 8) & 255}.${sent & 255}`
  return { ...shot, headers: { ...shot.headers, 'x-forwarded-for': address } }
}
const outcome = await autocannon({
  url: told.url,
  connections: told.connections,
  duration: told.seconds,
  requests: told.shots.map(shot => (told.addresses > 0 ? { ...shot, setupRequest: from } : shot)),
})
if (outcome.errors > 0) console.error(`${outcome.errors} requests to ${told.url} failed.`)
const counts = Object.entries(outcome.statusCodeStats).map(([status, { count }]) => [status, count])
const fired: Fired = { perSecond: outcome.requests.average, byStatus: Object.fromEntries(counts) }
console.log(JSON.stringify(fired))
