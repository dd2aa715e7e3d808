import type { FromOwners } from '../uses/customerViews.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { pathTo, pathToOwnerReading } from './frame.ts'
import { Tag } from './mark.tsx'

const w = CUSTOMER_EN

/** What owners said on their pages and the shop has to do something about, above everything else that waits. */
export const SaidByOwners = ({ said, figures }: { said: FromOwners | undefined; figures: Figures }) =>
  said === undefined ? null : (
    <section class="card" aria-label={w.fromOwners}>
      <h2>{w.fromOwners}</h2>
      <ul class="ruled">
        {said.partings.map(({ tag, name, saidAt }) => (
          <li class="line">
            <Tag tag={tag} />
            <a href={`${pathTo('machines', tag)}/owner`}>
              {fill(w.saysParted, { name: name ?? w.somebody, date: figures.date(saidAt) })}
            </a>
          </li>
        ))}
        {said.readings.map(({ id, tag, name, at }) => (
          <li class="line">
            <Tag tag={tag} />
            <a href={pathToOwnerReading(tag, id)}>
              {fill(w.sentReading, { name: name ?? w.somebody, date: figures.date(at) })}
            </a>
          </li>
        ))}
        {said.erases.map(({ customerId, name, askedAt }) => (
          <li>
            <a href={`${pathTo('customers', customerId)}/erase`}>
              {fill(w.saysErase, { name, date: figures.date(askedAt) })}
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
