import { type Arrived, proxiesWith } from '../http/arrivals.ts'
import { isLoopback } from '../letters/smtp.ts'
import { type Check, good, type LookedAt, look, wrong } from './check.ts'

/** Behind a proxy that isn't trusted, all visitors seem to be one. */
export function checkAddress({ config, arrivals }: LookedAt): Check {
  const { protocol, hostname } = new URL(config.publicUrl)
  const says = `Homeowners reach it at ${config.publicUrl}.`
  const trusted = config.trustedProxy
  const arrived = arrivals?.arrived()
  if (isLoopback(hostname))
    return look(
      'Address',
      [says, ...comesThrough(arrived)].join(' '),
      [
        'That works on this machine only: set PUBLIC_URL to the address that people use.',
        ...toTrust(arrived, trusted),
      ].join(' '),
    )
  if (protocol === 'http:')
    return wrong(
      'Address',
      [`${says} Nothing is encrypted on the way.`, ...comesThrough(arrived)].join(' '),
      [
        'Put a proxy with TLS in front, and set PUBLIC_URL to its https address.',
        ...toTrust(arrived, trusted),
      ].join(' '),
    )
  if (arrived?.untrusted)
    return look('Address', [says, ...comesThrough(arrived)].join(' '), toTrust(arrived, trusted).join(' '))
  if (trusted.length === 0)
    return look(
      'Address',
      `${says} No proxy is trusted.${arrived ? '' : NOT_SEEN}`,
      'If one is in front, set TRUSTED_PROXY to its address. Otherwise all visitors count as one.',
    )
  return checkTrusted(`${says} The proxy at ${trusted.join(', ')} is trusted.`, arrived)
}

const NOT_SEEN =
  ' Whether requests come through another can’t be seen from here: the page “How it’s doing” says so.'

function checkTrusted(says: string, arrived: Arrived | undefined): Check {
  if (!arrived) return good('Address', says + NOT_SEEN)
  if (arrived.passedOn > 0) return good('Address', `${says} Requests come through it.`)
  if (arrived.straight === 0) return good('Address', `${says} Nothing has come through it yet.`)
  return look(
    'Address',
    `${says} Since the start nothing has come through it, but ${arrived.straight === 1 ? '1 request has' : `${arrived.straight} requests have`} come another way.`,
    'If people get here through that proxy, check that it connects from that address and sends X-Forwarded-For.',
  )
}

function comesThrough(arrived: Arrived | undefined): string[] {
  if (!arrived?.untrusted) return []
  const { peer, count } = arrived.untrusted
  return [
    `Requests come through ${peer}, which isn’t trusted, so all visitors count as one (${count} in the last hour).`,
  ]
}

function toTrust(arrived: Arrived | undefined, trusted: string[]): string[] {
  if (!arrived?.untrusted) return []
  const proxies = proxiesWith(arrived.untrusted.peer, trusted, arrived)
  return [
    `Set TRUSTED_PROXY=${proxies} if that is your proxy. Anybody can send such a header, so look first.`,
  ]
}
