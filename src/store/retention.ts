import { eq, sql } from 'drizzle-orm'
import { keepingRules } from '../../db/schema.ts'
import { isOver, JOB_STATES } from '../core/job/states.ts'
import type { KeptSince } from '../core/retention.ts'
import type { Db } from './open.ts'

/** Undefined: the shop is never reminded. */
export const loadRemindAfterMonths = async (db: Db): Promise<number | undefined> =>
  (await db.select().from(keepingRules))[0]?.remindAfterMonths

export async function saveRemindAfterMonths(tx: Db, months: number | undefined): Promise<void> {
  await tx.delete(keepingRules).where(eq(keepingRules.id, 1))
  if (months !== undefined) await tx.insert(keepingRules).values({ id: 1, remindAfterMonths: months })
}

/** Whose a row of that table is: who is written there, else who has the machine. */
const OWNER = sql.raw('coalesce(t.customer_id, machines.customer_id)')

/** Everything dated about a person, as (customer, instant). */
const DATED = sql`
  select customer_id as id, sold_at as at from machines
  union all select customer_id, until from former_owners
  union all select ${OWNER}, t.asked_at from questions t join machines on machines.tag = t.machine_tag
  union all select ${OWNER}, messages.told_at from messages
    join questions t on t.id = messages.question_id join machines on machines.tag = t.machine_tag
  union all select ${OWNER}, max(t.agreed_at, coalesce(t.fitted_at, ''), coalesce(t.settled_at, ''), coalesce(t.told_at, ''))
    from jobs t join machines on machines.tag = t.machine_tag
  union all select ${OWNER}, t.at from owner_reports t join machines on machines.tag = t.machine_tag
  union all select customer_id, coalesce(sent_at, created_at) from mails
  union all select customer_id, created_at from owner_links
  union all select customer_id, at from owner_readings
  union all select customer_id, at from consents
  union all select machines.customer_id, coalesce(sales.handed_at, sales.started_at)
    from sales join machines on machines.tag = sales.machine_tag`

const OVER = sql.join(
  JOB_STATES.filter(isOver).map((state) => sql`${state}`),
  sql`, `,
)

const openAt = (at: string) => sql`
  select ${OWNER} as id from jobs t join machines on machines.tag = t.machine_tag where t.state not in (${OVER})
  union select ${OWNER} from questions t join machines on machines.tag = t.machine_tag
    where t.state in ('new', 'waiting for the owner')
  union select customer_id from owner_readings where taken_at is null and aside_at is null
  union select machines.customer_id from sales join machines on machines.tag = sales.machine_tag
    where sales.handed_at is null
  union select machines.customer_id from warranties join machines on machines.tag = warranties.machine_tag
    where warranties.until > ${at}`

/** Of every customer who was not erased, what tells whether their data is still needed, by name. */
export async function keptSince(
  db: Db,
  at: string,
): Promise<(KeptSince & { readonly id: string; readonly name: string })[]> {
  const rows = await db.all<{ id: string; name: string; lastAt: string | null; isOpen: number }>(sql`
    select customers.id, customers.name, dated.last_at as lastAt,
      customers.id in (select id from (${openAt(at)}) where id is not null) as isOpen
    from customers
    left join (select id, max(at) as last_at from (${DATED}) group by id) as dated on dated.id = customers.id
    where customers.erased_at is null
    order by customers.name, customers.id`)
  return rows.map(({ id, name, lastAt, isOpen }) => ({
    ...{ id, name, isOpen: isOpen === 1 },
    ...(lastAt !== null && { lastAt }),
  }))
}
