import type { Deps } from '../deps.ts'
import { keepFile, takeIn } from '../moving-in/moving-in.ts'
import { saveFirm } from '../places/firms.ts'

const ENTRANCES = 30
const NAME = 'Cattail Commons Association (invented)'

/** An invented association with thirty entrances and last year's beds of each, moved in from a file. */
export async function moveAssociationIn(deps: Deps, ownerId: number): Promise<void> {
  const rows = Array.from({ length: ENTRANCES }, (_, index) => {
    const beds = index % 3 === 0 ? '30 by 4; 9 ft across' : '24 by 4'
    return `1,${NAME},(555) 555-0177,board@cattail.example,${100 + 2 * index} Cattail Way,69404,${beds}`
  })
  const text = ['Customer,Name,Phone,Email,Street,Zip,Beds', ...rows].join('\n')
  const kept = await keepFile(deps, ownerId, { name: 'cattail-commons.csv', text })
  if (!kept.ok || (await takeIn(deps, ownerId, kept.id)) !== 'in')
    throw new Error('The association of the demonstration can’t be taken in')
  const { id } = await deps.db
    .selectFrom('customer')
    .select('id')
    .where('name', '=', NAME)
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
    rules: 'Tuesdays to Thursdays, after 9 in the morning. Brown mulch only.',
  }
  await saveFirm(deps.db, id, firm, { at: deps.now(), by: ownerId })
}
