import { SET_UP_FIELDS } from './people.ts'
import type { Bedwright } from './process.ts'
import { until } from './until.ts'

/** Fields as a browser posts them; a list becomes a field sent several times. */
export function formBody(fields: Record<string, string | string[]>): URLSearchParams {
  return new URLSearchParams(
    Object.entries(fields).flatMap(([name, value]) => [value].flat().map(one => [name, one])),
  )
}

/** The set-up address that a started Bedwright printed. */
export function setUpLine(bedwright: Bedwright): Promise<string> {
  const found = () => bedwright.said.map(line => /http\S+\/set-up\/\S+/.exec(line)?.[0]).find(Boolean)
  return until(found, { what: 'the set-up address' })
}

/** Sets the business up over HTTP, as a browser would. */
export function setUpAt(address: string, path: string): Promise<Response> {
  const headers = { origin: address }
  return fetch(address + path, { method: 'POST', headers, body: formBody(SET_UP_FIELDS), redirect: 'manual' })
}
