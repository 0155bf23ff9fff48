import type { Migration } from 'kysely/migration'
import * as begin from './2026-11-25-1-begin.ts'
import * as terms from './2026-11-25-2-terms.ts'
import * as rateDraft from './2026-11-25-3-rate-draft.ts'
import * as figuresLookedAt from './2026-11-25-4-figures-looked-at.ts'
import * as finishPhotos from './2026-11-25-5-finish-photos.ts'
import * as calledOffVersions from './2026-11-25-6-called-off-versions.ts'
import * as unconfirmedAddresses from './2026-11-26-1-unconfirmed-addresses.ts'
import * as keyCheck from './2026-11-26-2-key-check.ts'
import * as passwordReset from './2026-11-26-3-password-reset.ts'
import * as standingNumber from './2026-11-26-4-standing-number.ts'
import * as country from './2026-11-26-5-country.ts'
import * as understood from './2026-11-26-6-understood.ts'
import * as sites from './2026-11-26-7-sites.ts'
import * as people from './2026-11-26-8-people.ts'
import * as queue from './2026-11-26-9-queue.ts'
import * as photosFromHomeowners from './2026-11-26-91-photos-from-homeowners.ts'
import * as extraLabor from './2026-11-26-94-extra-labor.ts'
import * as laborHours from './2026-11-26-96-labor-hours.ts'
import * as texts from './2026-11-26-97-texts.ts'
import * as calendars from './2026-11-26-98-calendars.ts'
import * as movingIn from './2026-11-27-31-moving-in.ts'
import * as firms from './2026-11-27-32-firms.ts'
import * as papers from './2026-11-27-33-papers.ts'
import * as messages from './2026-11-27-41-messages.ts'
import * as offers from './2026-11-27-42-offers.ts'
import * as words from './2026-11-27-43-words.ts'
import * as explainedPrices from './2026-11-27-51-explained-prices.ts'
import * as agreedInWriting from './2026-11-27-52-agreed-in-writing.ts'
import * as storeBackup from './2026-11-27-61-store-backup.ts'
import * as stops from './2026-11-27-71-stops.ts'
import * as jobCertificates from './2026-11-27-72-job-certificates.ts'
import * as choices from './2026-11-27-73-choices.ts'
import * as payments from './2026-11-27-74-payments.ts'
import * as withdrawnChanges from './2026-11-27-75-withdrawn-changes.ts'
import * as moving from './2026-11-27-76-moving.ts'
import * as visits from './2026-11-27-77-visits.ts'
import * as daysOffered from './2026-11-27-78-days-offered.ts'
import * as visitsTakeRoom from './2026-11-27-79-visits-take-room.ts'
import * as letterhead from './2026-11-27-79-with-letterhead.ts'
import * as onHand from './2026-11-27-81-on-hand.ts'
import * as loads from './2026-11-27-82-loads.ts'
import * as orders from './2026-11-27-83-orders.ts'
import * as closing from './2026-11-27-84-closing.ts'
import * as howItWent from './2026-11-27-85-how-it-went.ts'
import * as jobSheets from './2026-11-27-86-job-sheets.ts'
import * as bills from './2026-11-27-87-bills.ts'
import * as daysAskedFor from './2026-11-27-90-days-asked-for.ts'
import * as halfDays from './2026-11-27-91-half-days.ts'
import * as crewHours from './2026-11-27-92-crew-hours.ts'
import * as sessionsByBrowser from './2026-11-27-94-sessions-by-browser.ts'
import * as mailsToStaff from './2026-11-27-95-mails-to-staff.ts'
import * as invitations from './2026-11-27-96-invitations.ts'
import * as linksEnd from './2026-11-27-97-links-end.ts'
import * as provedSessions from './2026-11-27-98-proved-sessions.ts'
import * as secondFactor from './2026-11-27-98-second-factor.ts'
import * as office from './2026-11-28-1-office.ts'
import * as privacy from './2026-11-28-2-privacy.ts'
import * as erasing from './2026-11-28-3-erasing.ts'
import * as maybeJunk from './2026-11-28-4-maybe-junk.ts'
import * as weeks from './2026-11-28-6-weeks.ts'
import * as nearDiscount from './2026-11-28-7-near-discount.ts'
import * as ordersAndLoads from './2026-11-28-81-orders-and-loads.ts'
import * as heldUnderCollect from './2026-11-28-82-held-under-collect.ts'
import * as visitsTakeHalves from './2026-11-28-83-visits-take-halves.ts'
import * as miles from './2026-11-28-84-miles.ts'
import * as passkeys from './2026-11-28-85-passkeys.ts'
import * as askedWhetherReal from './2026-11-28-86-asked-whether-real.ts'
import * as returnedOfErased from './2026-11-28-86-returned-of-erased.ts'
import * as allTakenOutIsLogged from './2026-11-28-87-all-taken-out-is-logged.ts'

/** Every migration under its dated name, in order; a released one is frozen. */
export const migrations: Record<string, Migration> = {
  '2026-11-25-1-begin': begin,
  '2026-11-25-2-terms': terms,
  '2026-11-25-3-rate-draft': rateDraft,
  '2026-11-25-4-figures-looked-at': figuresLookedAt,
  '2026-11-25-5-finish-photos': finishPhotos,
  '2026-11-25-6-called-off-versions': calledOffVersions,
  '2026-11-26-1-unconfirmed-addresses': unconfirmedAddresses,
  '2026-11-26-2-key-check': keyCheck,
  '2026-11-26-3-password-reset': passwordReset,
  '2026-11-26-4-standing-number': standingNumber,
  '2026-11-26-5-country': country,
  '2026-11-26-6-understood': understood,
  '2026-11-26-7-sites': sites,
  '2026-11-26-8-people': people,
  '2026-11-26-9-queue': queue,
  '2026-11-26-91-photos-from-homeowners': photosFromHomeowners,
  '2026-11-26-94-extra-labor': extraLabor,
  '2026-11-26-96-labor-hours': laborHours,
  '2026-11-26-97-texts': texts,
  '2026-11-26-98-calendars': calendars,
  '2026-11-27-31-moving-in': movingIn,
  '2026-11-27-32-firms': firms,
  '2026-11-27-33-papers': papers,
  '2026-11-27-41-messages': messages,
  '2026-11-27-42-offers': offers,
  '2026-11-27-43-words': words,
  '2026-11-27-51-explained-prices': explainedPrices,
  '2026-11-27-52-agreed-in-writing': agreedInWriting,
  '2026-11-27-61-store-backup': storeBackup,
  '2026-11-27-71-stops': stops,
  '2026-11-27-72-job-certificates': jobCertificates,
  '2026-11-27-73-choices': choices,
  '2026-11-27-74-payments': payments,
  '2026-11-27-75-withdrawn-changes': withdrawnChanges,
  '2026-11-27-76-moving': moving,
  '2026-11-27-77-visits': visits,
  '2026-11-27-78-days-offered': daysOffered,
  '2026-11-27-79-visits-take-room': visitsTakeRoom,
  '2026-11-27-79-with-letterhead': letterhead,
  '2026-11-27-81-on-hand': onHand,
  '2026-11-27-82-loads': loads,
  '2026-11-27-83-orders': orders,
  '2026-11-27-84-closing': closing,
  '2026-11-27-85-how-it-went': howItWent,
  '2026-11-27-86-job-sheets': jobSheets,
  '2026-11-27-87-bills': bills,
  '2026-11-27-90-days-asked-for': daysAskedFor,
  '2026-11-27-91-half-days': halfDays,
  '2026-11-27-92-crew-hours': crewHours,
  '2026-11-27-94-sessions-by-browser': sessionsByBrowser,
  '2026-11-27-95-mails-to-staff': mailsToStaff,
  '2026-11-27-96-invitations': invitations,
  '2026-11-27-97-links-end': linksEnd,
  '2026-11-27-98-proved-sessions': provedSessions,
  '2026-11-27-98-second-factor': secondFactor,
  '2026-11-28-1-office': office,
  '2026-11-28-2-privacy': privacy,
  '2026-11-28-3-erasing': erasing,
  '2026-11-28-4-maybe-junk': maybeJunk,
  '2026-11-28-6-weeks': weeks,
  '2026-11-28-7-near-discount': nearDiscount,
  '2026-11-28-81-orders-and-loads': ordersAndLoads,
  '2026-11-28-82-held-under-collect': heldUnderCollect,
  '2026-11-28-83-visits-take-halves': visitsTakeHalves,
  '2026-11-28-84-miles': miles,
  '2026-11-28-85-passkeys': passkeys,
  '2026-11-28-86-asked-whether-real': askedWhetherReal,
  '2026-11-28-86-returned-of-erased': returnedOfErased,
  '2026-11-28-87-all-taken-out-is-logged': allTakenOutIsLogged,
}
