const FIRST = [
  'America/New_York',
  'America/Chicago',
  'America/Denver',
  'America/Phoenix',
  'America/Los_Angeles',
  'America/Anchorage',
  'Pacific/Honolulu',
]

/** The time zones to pick from: those of the United States, then all others by name, after an empty one. */
export function timeZones(): { value: string; label: string }[] {
  const others = Intl.supportedValuesOf('timeZone').filter(zone => !FIRST.includes(zone))
  const labelled = [...FIRST, ...others].map(zone => ({ value: zone, label: zone.replaceAll('_', ' ') }))
  return [{ value: '', label: 'Pick one' }, ...labelled]
}
