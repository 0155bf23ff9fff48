import type { Decimal } from '../../lib/decimal.ts'
import type { UnitSystem } from './units.ts'

/** A length as a person reads it: '12 ft 6 in', '3.8 m'. */
export function showLength(value: Decimal, system: UnitSystem): string {
  if (system.name === 'metric') return `${short(value, 2)} m`
  const inches = value.times(12).toDecimalPlaces(1)
  const feet = inches.div(12).floor()
  const rest = inches.minus(feet.times(12))
  if (feet.isZero()) return `${short(rest, 1)} in`
  return rest.isZero() ? `${short(feet, 0)} ft` : `${short(feet, 0)} ft ${short(rest, 1)} in`
}

/** A depth as it is echoed: '2.5 in', '8 cm'. */
export function showDepth(value: Decimal, system: UnitSystem): string {
  return `${short(value, 2)} ${system.depth}`
}

/** An area as it is echoed: '100 ft²', '9.3 m²'. */
export function showArea(value: Decimal, system: UnitSystem): string {
  return `${short(value, 2)} ${system.area === 'ft2' ? 'ft²' : 'm²'}`
}

/** A volume as it is echoed: '54 ft³ (2 yd³)', '1.5 m³'. */
export function showVolume(value: Decimal, system: UnitSystem): string {
  if (system.name === 'metric') return `${short(value, 2)} m³`
  return `${short(value, 2)} ft³ (${short(value.div(system.volumesPerBulk), 2)} yd³)`
}

// Grouped by a comma only where no decimal comma could be meant: the figure is echoed, not read back.
export function short(value: Decimal, places: number): string {
  const [whole, decimals] = value.toDecimalPlaces(places).toFixed().split('.')
  const grouped = whole!.replace(/\B(?=(\d{3})+$)/g, ',')
  return decimals ? `${grouped}.${decimals}` : grouped
}
