/**
 * The network that an address belongs to, as far as one household has it for itself: of IPv6 the first 64 bits, since
 * whoever has one address there has them all; else the address.
 */
export function networkOf(address: string): string {
  const [plain = ''] = address.toLowerCase().split('%')
  const mapped = /^::ffff:(\d+(?:\.\d+){3})$/.exec(plain)
  if (mapped) return mapped[1]!
  if (!plain.includes(':')) return plain
  const [before = '', after] = plain.split('::')
  const groups = (text = '') => text.split(':').filter(Boolean)
  const [first, last] = [groups(before), groups(after)]
  // An IPv4 address at the end stands for two groups; it is never among the first four.
  const left = 8 - first.length - last.length - (plain.includes('.') ? 1 : 0)
  const all = [
    ...first,
    ...Array.from({ length: after === undefined ? 0 : Math.max(0, left) }, () => '0'),
    ...last,
  ]
  const network = all.slice(0, 4).map(group => group.replace(/^0+(?=.)/, ''))
  return `${network.join(':')}::/64`
}
