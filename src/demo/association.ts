import type { Deps } from '../deps.ts'
import { keepFile, takeIn } from '../moving-in/moving-in.ts'
import { saveFirm } from '../places/firms.ts'
import { bed, type Story } from './stories.ts'

const ENTRANCES = 30
const ASSOCIATION = 'Cattail Commons Association (invented)'
const OTHERS = 3

const entrances = Array.from({ length: ENTRANCES }, (_, index) => ({
  name: `Entrance ${index + 1}`,
  note: index % 10 === 0 ? 'Mind the sprinklers' : '',
  spot: `${100 + 2 * index} Cattail Way`,
}))

// Every third entrance has a round bed beside the long one.
const beds = entrances.flatMap((_, stop) => [
  bed(
    'rectangle',
    { length: '24 ft', width: '4 ft' },
    { stop, planted: 'half', lying: 'thin', finish: 'dyed-wood' },
  ),
  ...(stop % 3 === 0
    ? [bed('circle', { diameter: '9 ft' }, { stop, lying: 'thin', finish: 'dyed-wood' })]
    : []),
])

/** Thirty entrances of one place: a job of several days, put in on the phone. */
export const associationStory: Story = {
  sent: '-16 10:05',
  putIn: true,
  name: ASSOCIATION,
  phone: '(555) 555-0177',
  street: '100 Cattail Way',
  postcode: '69404',
  stops: entrances,
  beds,
  after: [
    { at: '-16 10:07', verb: 'same as', before: ASSOCIATION, decision: 'same' },
    { at: '-16 10:10', verb: 'set a visit', for: '-12 13:00' },
    { at: '-12 16:30', verb: 'measure', sizes: [{ length: `24' 6"`, width: '4 ft' }] },
    { at: '-12 18:10', verb: 'quote', note: 'One entrance after the other, over several days.' },
    { at: '-9 11:20', verb: 'accept', orderNumber: 'CC-2217' },
    { at: '-9 11:25', verb: 'book', daysAhead: 6 },
  ],
}

/** An invented association with a few more houses whose beds of last year come from a file, and what is agreed with it. */
export async function moveAssociationIn(deps: Deps, ownerId: number): Promise<void> {
  const rows = Array.from({ length: OTHERS }, (_, index) => {
    const street = `${2 + 2 * index} Bulrush Court`
    return `1,${ASSOCIATION},(555) 555-0177,board@cattail.example,${street},69404,30 by 4; 9 ft across`
  })
  const text = ['Customer,Name,Phone,Email,Street,Zip,Beds', ...rows].join('\n')
  const kept = await keepFile(deps, ownerId, { name: 'cattail-commons.csv', text })
  if (!kept.ok || (await takeIn(deps, ownerId, kept.id)) !== 'in')
    throw new Error('The association of the demonstration can’t be taken in')
  const { id } = await deps.db
    .selectFrom('customer')
    .select('id')
    .where('name', '=', ASSOCIATION)
    .executeTakeFirstOrThrow()
  const firm = {
    needs_order: true,
    days_to_pay: 30,
    bill_name: 'Cattail Property Office',
    bill_email: 'bills@cattail.example',
    bill_address: '1 Cattail Way, 69404',
    exempt_number: '',
    exempt_until: null,
    paper_ids: [],
    rules: 'Weekdays, after 9 in the morning. Brown mulch only.',
  }
  await saveFirm(deps.db, id, firm, { at: deps.now(), by: ownerId })
}
