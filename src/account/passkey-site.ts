/** For which site passkeys are made: its name, and the one origin from which they are answered. */
export interface PasskeySite {
  id: string
  origin: string
}

/**
 * The site of a public address; null where browsers offer no passkeys: without https but on localhost, and by a bare IP address
 * (Web Authentication Level 3, 5.1.3 and 13.4.9).
 */
export function passkeySite(publicUrl: string): PasskeySite | null {
  const { protocol, hostname, origin } = new URL(publicUrl)
  const isLocal = hostname === 'localhost' || hostname.endsWith('.localhost')
  const isBare = /^[\d.]+$/.test(hostname) || hostname.startsWith('[')
  if (isBare || (protocol !== 'https:' && !isLocal)) return null
  return { id: hostname, origin }
}
