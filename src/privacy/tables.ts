import type { Database } from '../db/schema.ts'

export type TableName = keyof Database

/** By what a row is known to be of a person; see `ofPerson`. */
export type Via =
  | 'customer'
  | 'place'
  | 'request'
  | 'quote'
  | 'bill'
  | 'closing'
  | 'booking'
  | 'order'
  | 'itself'

interface OfPerson {
  via: Via
  /** What its rows are, for whoever reads an export. */
  about: string
  /** Columns that an export leaves out: pictures, keys, other people’s names, and the business’s own figures. */
  without?: string[]
}

const RECOGNIZED = [
  'head_id',
  'joined_to',
  'keyed_as',
  'phone_key',
  'email_key',
  'street_key',
  'postcode_key',
]
const PICTURES = ['picture', 'small', 'token_hash', 'digest']
const QUEUE = ['submission_key', 'content_hash', 'given_to', 'news_from', 'step', 'due_at', 'on_hold_until']

/** The tables that hold something of a homeowner, in the order in which an export tells them. */
export const OF_PERSON: Partial<Record<TableName, OfPerson>> = {
  customer: { via: 'itself', about: 'Name, phone, and email, as given each time.', without: RECOGNIZED },
  firm: {
    via: 'customer',
    about: 'What is agreed with a firm or an association.',
    without: ['certificate_file_id', 'paper_ids', 'saved_by'],
  },
  consent: { via: 'customer', about: 'What was said of offers, word for word.', without: ['account_id'] },
  offer_recipient: { via: 'customer', about: 'Which offers were sent.' },
  place: { via: 'itself', about: 'Addresses.', without: RECOGNIZED },
  stop: { via: 'place', about: 'Spots at an address that have beds.' },
  bed: { via: 'place', about: 'Beds at an address, as told and as measured last.' },
  quote_request: {
    via: 'itself',
    about: 'Requests, with the beds as typed and as understood.',
    without: QUEUE,
  },
  request_bed: { via: 'request', about: 'Which bed stood where in a request.' },
  ballpark: { via: 'request', about: 'The price range that was shown at first.' },
  request_photo: {
    via: 'request',
    about: 'Photos that were sent; they are in the folder photos.',
    without: PICTURES,
  },
  history: { via: 'request', about: 'What happened when, with notes and answers.', without: ['account_id'] },
  outbox: {
    via: 'request',
    about: 'Which messages went out; their words aren’t kept.',
    without: ['account_id', 'passed_on_by', 'invitation_id', 'digest_id', 'for_digest'],
  },
  link: { via: 'request', about: 'When links were made and ended.', without: ['nonce', 'token_hash'] },
  visit_offer: { via: 'request', about: 'Times that were offered for a visit.' },
  visit: { via: 'request', about: 'Visits.' },
  quote: {
    via: 'request',
    about: 'Prices; the newest of each request is a PDF in the folder prices.',
    without: ['labor_hours', 'labor_hours_worked_out', 'made_by'],
  },
  quote_line: { via: 'quote', about: 'The lines of prices.', without: ['worked_out', 'reason'] },
  quote_line_share: { via: 'quote', about: 'What of a line falls onto each stop.' },
  quote_variant: {
    via: 'quote',
    about: 'What the choices beside a price would cost.',
    without: ['labor_hours', 'labor_hours_worked_out', 'lines'],
  },
  quote_sent: { via: 'quote', about: 'When a price was handed over.', without: ['sent_by'] },
  quote_seen: { via: 'quote', about: 'When a price was read.' },
  acceptance: { via: 'quote', about: 'Acceptances, with the name that was typed.', without: ['taken_by'] },
  accepted_text: { via: 'quote', about: 'What was accepted, word for word, and its SHA-256.' },
  change_declined: { via: 'quote', about: 'Changes that were declined.', without: ['withdrawn_by'] },
  booking: { via: 'request', about: 'Booked work.' },
  booking_day: { via: 'booking', about: 'The days of booked work.', without: ['hours'] },
  purchase_order: { via: 'request', about: 'Numbers of a firm’s own orders.' },
  job_certificate: {
    via: 'request',
    about: 'Tax certificates for one job.',
    without: ['file_id', 'saved_by'],
  },
  payment: { via: 'request', about: 'Payments.', without: ['made_by'] },
  deposit_settled: { via: 'request', about: 'What became of a deposit.', without: ['settled_by'] },
  fee: { via: 'request', about: 'Fees for returned checks.', without: ['made_by'] },
  bill: {
    via: 'request',
    about: 'Bills and credit memos; each is a PDF in the folder bills.',
    without: ['made_by'],
  },
  bill_line: { via: 'bill', about: 'The lines of bills.' },
  bill_line_share: { via: 'bill', about: 'What of a bill’s line falls onto each stop.' },
  job_closing: { via: 'request', about: 'How the work went.', without: ['made_by'] },
  job_share_done: { via: 'closing', about: 'What of a price’s lines was done.' },
  job_used: { via: 'closing', about: 'What was used.', without: ['planned'] },
  job_left_over: { via: 'closing', about: 'What was left over.' },
  job_hours: { via: 'closing', about: 'Time worked, without who.', without: ['account_id', 'name'] },
  job_dump_fee: { via: 'closing', about: 'Fees at the dump.', without: ['typed_by'] },
  job_stop_done: { via: 'request', about: 'Stops that are done.', without: ['done_by'] },
  job_photo: {
    via: 'request',
    about: 'Photos of the work; they are in the folder photos.',
    without: [...PICTURES, 'made_by'],
  },
  job_trouble: {
    via: 'request',
    about: 'Damage, and what was put right for free.',
    without: ['made_by', 'done_by', 'key'],
  },
  dig_ticket: { via: 'request', about: 'Utility tickets.', without: ['made_by'] },
  dig_decision: { via: 'request', about: 'Who decided to go on digging.', without: ['made_by'] },
  on_hand_move: {
    via: 'request',
    about: 'Material that came from or went to the yard.',
    without: ['made_by', 'key'],
  },
  supply_order_job: { via: 'request', about: 'Orders of material for the work.' },
  load_share: { via: 'request', about: 'Material loaded for the work.' },
  sold_out_at_yard: { via: 'request', about: 'Material that the yard had no more of.', without: ['told_by'] },
  request_text: { via: 'request', about: 'What a request is found by.' },
  customer_decision: {
    via: 'customer',
    about: 'Who was taken for the same person.',
    without: ['account_id', 'undone_by'],
  },
  place_decision: {
    via: 'place',
    about: 'Which address was taken for the same.',
    without: ['account_id', 'undone_by'],
  },
  access_log: { via: 'customer', about: 'When this data was saved or erased.', without: ['account_id'] },
}

/** Every other table, and why it holds nothing of a homeowner, or nothing that names one. */
export const OF_NOBODY: Partial<Record<TableName, string>> = {
  account: 'the staff',
  session: 'the staff',
  password_reset: 'the staff',
  sign_in_link: 'the staff',
  invitation: 'the staff',
  role_change: 'the staff',
  authenticator: 'the staff',
  recovery_code: 'the staff',
  passkey: 'the staff',
  passkey_challenge: 'hashes that go after minutes',
  calendar_feed: 'the staff',
  crew_member: 'the staff',
  crew_member_off: 'the staff',
  sign_in_failure: 'hashes that go after days',
  mail_hour: 'hashes that go after a day',
  requests_counted: 'hashes that go after two days',
  text_reply: 'ids of messages that go after days',
  maybe_junk: 'what is nobody’s yet, and goes after days',
  moving_in: 'a file of many, whose text goes when it is taken in, or after days',
  kept_file: 'certificates go with whatever points at them',
  paper: 'the business’s own',
  business: 'the business’s own',
  rate_table: 'the business’s own',
  rate_table_called_off: 'the business’s own',
  rate_draft: 'the business’s own',
  figure_looked_at: 'the business’s own',
  finish_photo: 'the business’s own',
  standing_number: 'the business’s own',
  job_sheet_settings: 'the business’s own',
  message_choice: 'the business’s own',
  message_words: 'the business’s own',
  offer: 'the business’s own',
  text_gateway: 'the business’s own',
  key_check: 'the business’s own',
  store_backup: 'the business’s own',
  request_year: 'numbers',
  bill_year: 'numbers',
  work_day: 'days, and how full they are',
  rain_move: 'days, and how full they are',
  on_hand: 'what lies in the yard',
  load_got: 'what was bought for a day',
  things_along: 'what is taken along on a day',
  thing_on_truck: 'what is taken along on a day',
  miles_driven: 'how far was driven on a day',
  supplier: 'suppliers',
  supply_order: 'what was ordered for a day; where it was dropped is blanked',
  supply_order_step: 'what was ordered for a day; its note is blanked',
}
