/** A file of the accountant's zip: what a row is, and its columns, each with what it says. */
export interface BookFile {
  name: string
  rows: string
  columns: [name: string, says: string][]
}

const MONEY = 'an amount of money, as 1234.50; below zero it goes the other way'

/** Every file of the zip with its columns in order. */
export const FILES = {
  bills: {
    name: 'bills.csv',
    rows: 'a bill or a credit memo, by the day on it',
    columns: [
      ['number', 'its number, without gaps within a year; B for a bill, C for a credit memo'],
      ['kind', 'bill, or credit memo'],
      ['day', 'the day on it'],
      ['due', 'by when it is due'],
      ['request', 'the number of the request'],
      ['billed to', 'the name it is made out to'],
      ['work at', 'where the work was done'],
      ['area', 'the ZIP or postcode that its tax goes by'],
      ['purchase order', 'the customer’s number for it'],
      ['exemption', 'the number of the certificate by which it is without tax'],
      ['without tax', `what it comes to without tax, ${MONEY}`],
      ['tax', 'all tax on it or in it'],
      ['total', 'what it comes to'],
      ['currency', 'the code of the currency'],
      ['first day worked', 'for questions about liens: ask a lawyer'],
      ['last day worked', 'the same'],
      ['cancels', 'the bill that a credit memo cancels'],
      ['reason', 'why'],
    ],
  },
  lines: {
    name: 'lines.csv',
    rows: 'a line of a bill or credit memo in bills.csv; they add up to its total',
    columns: [
      ['number', 'of the bill'],
      ['position', 'its place'],
      ['kind', 'finish, laying, extra, extra-labor, travel, minimum, adjustment, size, set-up, other, tax'],
      ['what', 'as the customer reads it in English'],
      ['quantity', 'how much of it, or how much was done'],
      ['amount', MONEY],
    ],
  },
  payments: {
    name: 'payments.csv',
    rows: 'money as it changed hands, by its day; what was undone stands with the row that undid it',
    columns: [
      ['day', 'the day'],
      ['request', 'the number of the request'],
      ['customer', 'who pays'],
      ['kind', 'deposit, payment, or refund'],
      [
        'way',
        'cash, check, card, transfer, other; credit: kept for the customer, or paid from that, with no money moving',
      ],
      ['amount', MONEY],
      ['tip', 'given beside it'],
      ['undoes', 'undone: noted by mistake; returned: the bank returned the check; else empty'],
      ['noted by', 'who noted it'],
    ],
  },
  fees: {
    name: 'fees.csv',
    rows: 'a fee for a returned check, below zero where it was let go',
    columns: [
      ['day', 'the day of the fee'],
      ['request', 'the number of the request'],
      ['amount', MONEY],
    ],
  },
  tax: {
    name: 'tax.csv',
    rows: 'a tax at a rate in an area',
    columns: [
      ['tax', 'its name'],
      ['rate', 'as a share: 0.0825 is 8.25%'],
      ['area', 'the ZIP or postcode of the work'],
      ['taxed', 'what was billed that it is on'],
      ['billed', 'the tax on bills of the period, less that on credit memos'],
      ['received', 'the share of billed tax that was paid in the period, as much of it as of the bill'],
    ],
  },
  purchases: {
    name: 'purchases.csv',
    rows: 'something bought for a work day, as it was noted at the yard, by supplier',
    columns: [
      ['supplier', 'where it was bought, as it was typed'],
      ['day', 'the work day that it was for'],
      ['material', 'the short name of the material or extra in the rates'],
      ['pack', 'the short name of the pack; empty where none is listed'],
      ['units', 'how many packs, or how much of what is loose'],
      ['paid', 'what was paid, with tax; empty where nobody said'],
      ['delivered', 'yes or no'],
      ['noted by', 'who noted it'],
    ],
  },
  dumpFees: {
    name: 'dump-fees.csv',
    rows: 'a dump fee of a job, by its last day worked',
    columns: [
      ['day', 'the last day worked'],
      ['request', 'the number of the request'],
      ['amount', 'what it was'],
      ['what', 'as it was typed'],
      ['noted by', 'who noted it'],
    ],
  },
  hours: {
    name: 'hours.csv',
    rows: 'what somebody worked in a week, of jobs by their last day worked',
    columns: [
      ['person', 'the name, as it was then'],
      ['week', 'its Monday'],
      ['task', 'work, yard, or driving'],
      ['hours', 'with two decimals'],
    ],
  },
  miles: {
    name: 'miles.csv',
    rows: 'a drive, as it was noted on a day',
    columns: [
      ['day', 'the day'],
      ['vehicle', 'which, as it was typed'],
      ['odometer before', 'empty where only the distance was noted'],
      ['odometer after', 'the same'],
      ['distance', 'with one decimal'],
      ['unit', 'mi or km'],
      ['jobs', 'the numbers of the requests booked or visited on that day'],
      ['what for', 'besides those, as it was typed'],
      ['noted by', 'who noted it'],
    ],
  },
  depositsHeld: {
    name: 'deposits-held.csv',
    rows: 'a request without a bill of which money is held at the end of the period',
    columns: [
      ['request', 'the number of the request'],
      ['customer', 'who paid'],
      ['held', MONEY],
    ],
  },
  depositsKept: {
    name: 'deposits-settled.csv',
    rows: 'a request that ended, whose deposit was settled in the period',
    columns: [
      ['day', 'the day'],
      ['request', 'the number of the request'],
      ['kept', MONEY],
      ['given back', 'stands in payments.csv too'],
    ],
  },
  credits: {
    name: 'credits-held.csv',
    rows: 'a customer with a credit at the end of the period',
    columns: [
      ['customer', 'whose it is'],
      ['credit', MONEY],
    ],
  },
} satisfies Record<string, BookFile>

export type FileKey = keyof typeof FILES

/** What every file and column says, for whoever opens the zip. */
export function guideText(about: string[]): string {
  const parts = Object.values(FILES).map(({ name, rows, columns }: BookFile) =>
    [`${name}: each row is ${rows}.`, ...columns.map(([column, says]) => `  ${column}: ${says}`)].join(
      '\r\n',
    ),
  )
  const text =
    'CSV as RFC 4180 says, in UTF-8. Days are YYYY-MM-DD. An apostrophe before a text keeps spreadsheets from reading it as a formula or a number.'
  return `${[...about, text, ...parts].join('\r\n\r\n')}\r\n`
}
