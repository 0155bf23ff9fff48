import type {
  AccountTable,
  AuthenticatorTable,
  InvitationTable,
  PasskeyChallengeTable,
  PasskeyTable,
  PasswordResetTable,
  RecoveryCodeTable,
  RoleChangeTable,
  SessionTable,
  SignInFailureTable,
  SignInLinkTable,
} from './schema/accounts.ts'
import type { BillLineShareTable, BillLineTable, BillTable, BillYearTable } from './schema/bills.ts'
import type {
  BusinessTable,
  KeyCheckTable,
  StandingNumberTable,
  StoreBackupTable,
} from './schema/business.ts'
import type {
  BookingDayTable,
  BookingTable,
  CrewMemberOffTable,
  CrewMemberTable,
  MilesDrivenTable,
  RainMoveTable,
  WorkDayTable,
} from './schema/days.ts'
import type {
  LoadGotTable,
  LoadShareTable,
  OnHandMoveTable,
  OnHandTable,
  SoldOutAtYardTable,
  SupplierTable,
  SupplyOrderJobTable,
  SupplyOrderStepTable,
  SupplyOrderTable,
  ThingOnTruckTable,
  ThingsAlongTable,
} from './schema/goods.ts'
import type {
  DigDecisionTable,
  DigTicketTable,
  JobClosingTable,
  JobDumpFeeTable,
  JobHoursTable,
  JobLeftOverTable,
  JobPhotoTable,
  JobShareDoneTable,
  JobSheetSettingsTable,
  JobStopDoneTable,
  JobTroubleTable,
  JobUsedTable,
} from './schema/jobs.ts'
import type { MaybeJunkTable, RequestsCountedTable } from './schema/junk.ts'
import type {
  CalendarFeedTable,
  ConsentTable,
  MailHourTable,
  MessageChoiceTable,
  MessageWordsTable,
  OfferRecipientTable,
  OfferTable,
  OutboxTable,
  TextGatewayTable,
  TextReplyTable,
} from './schema/letters.ts'
import type { DepositSettledTable, FeeTable, PaymentTable } from './schema/payments.ts'
import type {
  CustomerTable,
  DecisionTable,
  FirmTable,
  KeptFileTable,
  MovingInTable,
  PaperTable,
} from './schema/people.ts'
import type { BedTable, PlaceTable, RequestBedTable, RequestYearTable, StopTable } from './schema/places.ts'
import type { AccessLogTable } from './schema/privacy.ts'
import type {
  AcceptanceTable,
  AcceptedTextTable,
  ChangeDeclinedTable,
  JobCertificateTable,
  PurchaseOrderTable,
  QuoteLineShareTable,
  QuoteLineTable,
  QuoteSeenTable,
  QuoteSentTable,
  QuoteTable,
  QuoteVariantTable,
} from './schema/quotes.ts'
import type {
  FigureLookedAtTable,
  FinishPhotoTable,
  RateDraftTable,
  RateTableCalledOffTable,
  RateTableTable,
} from './schema/rates.ts'
import type {
  BallparkTable,
  HistoryTable,
  LinkTable,
  QuoteRequestTable,
  RequestPhotoTable,
  RequestTextTable,
} from './schema/requests.ts'
import type { VisitOfferTable, VisitTable } from './schema/visits.ts'

export interface Database {
  account: AccountTable
  session: SessionTable
  sign_in_failure: SignInFailureTable
  password_reset: PasswordResetTable
  sign_in_link: SignInLinkTable
  authenticator: AuthenticatorTable
  recovery_code: RecoveryCodeTable
  passkey: PasskeyTable
  passkey_challenge: PasskeyChallengeTable
  invitation: InvitationTable
  role_change: RoleChangeTable
  business: BusinessTable
  rate_table: RateTableTable
  rate_table_called_off: RateTableCalledOffTable
  standing_number: StandingNumberTable
  rate_draft: RateDraftTable
  figure_looked_at: FigureLookedAtTable
  finish_photo: FinishPhotoTable
  customer: CustomerTable
  moving_in: MovingInTable
  firm: FirmTable
  kept_file: KeptFileTable
  paper: PaperTable
  job_certificate: JobCertificateTable
  purchase_order: PurchaseOrderTable
  customer_decision: DecisionTable
  place: PlaceTable
  place_decision: DecisionTable
  bed: BedTable
  stop: StopTable
  request_bed: RequestBedTable
  request_year: RequestYearTable
  quote_request: QuoteRequestTable
  request_photo: RequestPhotoTable
  maybe_junk: MaybeJunkTable
  requests_counted: RequestsCountedTable
  request_text: RequestTextTable
  ballpark: BallparkTable
  visit: VisitTable
  visit_offer: VisitOfferTable
  quote: QuoteTable
  quote_line: QuoteLineTable
  quote_line_share: QuoteLineShareTable
  quote_sent: QuoteSentTable
  quote_seen: QuoteSeenTable
  quote_variant: QuoteVariantTable
  payment: PaymentTable
  deposit_settled: DepositSettledTable
  bill: BillTable
  bill_year: BillYearTable
  bill_line: BillLineTable
  bill_line_share: BillLineShareTable
  fee: FeeTable
  on_hand: OnHandTable
  on_hand_move: OnHandMoveTable
  load_got: LoadGotTable
  load_share: LoadShareTable
  sold_out_at_yard: SoldOutAtYardTable
  things_along: ThingsAlongTable
  thing_on_truck: ThingOnTruckTable
  miles_driven: MilesDrivenTable
  supplier: SupplierTable
  supply_order: SupplyOrderTable
  supply_order_job: SupplyOrderJobTable
  supply_order_step: SupplyOrderStepTable
  acceptance: AcceptanceTable
  accepted_text: AcceptedTextTable
  change_declined: ChangeDeclinedTable
  work_day: WorkDayTable
  rain_move: RainMoveTable
  crew_member: CrewMemberTable
  crew_member_off: CrewMemberOffTable
  booking: BookingTable
  booking_day: BookingDayTable
  job_closing: JobClosingTable
  job_share_done: JobShareDoneTable
  job_sheet_settings: JobSheetSettingsTable
  dig_ticket: DigTicketTable
  dig_decision: DigDecisionTable
  job_used: JobUsedTable
  job_left_over: JobLeftOverTable
  job_hours: JobHoursTable
  job_dump_fee: JobDumpFeeTable
  job_stop_done: JobStopDoneTable
  job_photo: JobPhotoTable
  job_trouble: JobTroubleTable
  link: LinkTable
  key_check: KeyCheckTable
  store_backup: StoreBackupTable
  history: HistoryTable
  outbox: OutboxTable
  consent: ConsentTable
  offer: OfferTable
  offer_recipient: OfferRecipientTable
  message_choice: MessageChoiceTable
  message_words: MessageWordsTable
  calendar_feed: CalendarFeedTable
  text_gateway: TextGatewayTable
  text_reply: TextReplyTable
  mail_hour: MailHourTable
  access_log: AccessLogTable
}
