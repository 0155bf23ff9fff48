import ICAL from 'ical.js'

/** An entry as a calendar program reads it. */
export interface ReadEntry {
  uid: string
  sequence: number
  summary: string
  location: string | null
  /** A day, or a moment in UTC. */
  start: string
  end: string
  status: string
  attendees: string[]
  organizer: string | null
}

/** Reads iCalendar strictly: its method, and its entries in their order. */
export function readCalendar(text: string): { method: string; entries: ReadEntry[] } {
  if (/[^\r]\n/.test(text)) throw new Error('A line ends in LF alone')
  if (text.split('\r\n').some(line => Buffer.byteLength(line) > 75)) throw new Error('A line is too long')
  const calendar = new ICAL.Component(ICAL.parse(text))
  const entries = calendar.getAllSubcomponents('vevent').map(component => {
    const event = new ICAL.Event(component, { strictExceptions: true })
    const attendees = component.getAllProperties('attendee').map(one => String(one.getFirstValue()))
    const [start, end] = [event.startDate, event.endDate].map(String) as [string, string]
    const { uid, sequence, summary, location, organizer } = event
    const status = String(component.getFirstPropertyValue('status'))
    return { uid, sequence, summary, location, start, end, status, attendees, organizer }
  })
  return { method: String(calendar.getFirstPropertyValue('method')), entries }
}
