import type { Deps } from '../deps.ts'
import type { BusinessSettings } from './form.ts'

/** Writes what the owner now says of the business; units and currency stay as they were set up. */
export async function changeBusiness(deps: Deps, facts: BusinessSettings): Promise<void> {
  await deps.db
    .updateTable('business')
    .set({
      name: facts.name,
      phone: facts.phone,
      email: facts.email,
      country: facts.country,
      time_zone: facts.timeZone,
      labor_hours_a_day: facts.laborHoursADay,
      quote_holds_days: facts.quoteHoldsDays,
      answer_within_days: facts.answerWithinDays,
      working_days: facts.workingDays,
      photos_each: facts.photos.each,
      photos_megabytes: facts.photos.megabytes,
      photos_months: facts.photos.months,
    })
    .execute()
}
