import type { Shop } from '../../core/answer.ts'
import { type Hindrance, hindrancesOf } from '../../core/outbox/hindrance.ts'
import { isOffer } from '../../core/outbox/mail.ts'
import { OFFER_RULES } from '../../core/outbox/offerRules.ts'
import { partingEnd } from '../../core/ownerLink.ts'
import { sourceSchema } from '../../input/storedRound.ts'
import { loadCustomer } from '../../store/customers.ts'
import { ownerIdOf } from '../../store/machines.ts'
import { loadOfferRules } from '../../store/offerRules.ts'
import type { Db } from '../../store/open.ts'
import type { Mail } from '../../store/outbox.ts'
import { offersSentTo } from '../../store/outboxOffers.ts'
import { cameBackAt } from '../../store/outboxPeople.ts'
import { partingOfMachine } from '../../store/partings.ts'
import { seatOfMail } from '../../store/roundSeats.ts'
import { loadRoundRow } from '../../store/rounds.ts'
import { mayOfferTo } from '../consent.ts'

/** Where owners reach us, as the settings say; absent = not at all from outside. */
export type Reach = { readonly ownerUrl?: string | undefined }

/** RFC 8058, 3.1: the one-click address is https. */
export const hasOneClick = ({ ownerUrl }: Reach): boolean => ownerUrl?.startsWith('https://') === true

/** Where one press takes somebody off the offers. */
export const unsubscribeUrl = ({ ownerUrl }: Reach, token: string): string => `${ownerUrl ?? ''}/u/${token}`

/** What stands in the way of a mail at this instant, from what is kept now. */
export async function hindrancesNow(
  db: Db,
  mail: Pick<Mail, 'kind' | 'customerId' | 'toAddress' | 'machineTag'> & { readonly id?: string },
  shop: Pick<Shop, 'address' | 'timeZone'>,
  reach: Reach,
  at: string,
): Promise<Hindrance[]> {
  const { customerId, kind, machineTag } = mail
  const customer = customerId === undefined ? undefined : await loadCustomer(db, customerId)
  const isAnOffer = isOffer(kind)
  const facts = {
    kind,
    mayOffer: isAnOffer && customerId !== undefined && (await mayOfferTo(db, customerId, at)),
    ...(isAnOffer && machineTag !== undefined
      ? await machineFacts(db, machineTag, customerId)
      : { isMachineTheirs: true }),
    isErased: customer?.erasedAt !== undefined,
    cameBackAt: await cameBackAt(db, mail.toAddress),
    offersSentAt: isAnOffer && customerId !== undefined ? await offersSentTo(db, customerId) : [],
    ...(isAnOffer && mail.id !== undefined ? await roundFacts(db, mail.id) : {}),
    postalAddress: shop.address,
    hasOneClick: hasOneClick(reach),
  }
  const rules = isAnOffer ? await loadOfferRules(db) : OFFER_RULES
  return hindrancesOf(facts, rules, at, shop.timeZone)
}

/** What the round of an offer says of when it may go. Who was taken in by hand although they heard lately is not kept from it. */
async function roundFacts(db: Db, mailId: string) {
  const seat = await seatOfMail(db, mailId)
  const round = seat && (await loadRoundRow(db, seat.roundId))
  if (seat === undefined || round === undefined) return {}
  const { quietDays } = sourceSchema.parse(round.source)
  return {
    validUntil: round.validUntil,
    ...(seat.leftBecause !== 'quiet period' && { quietDays }),
  }
}

/** Whose the machine of an offer is, and what its owner said of it. */
async function machineFacts(db: Db, machineTag: string, customerId: string | undefined) {
  const parting = await partingOfMachine(db, machineTag)
  return {
    isMachineTheirs: (await ownerIdOf(db, machineTag)) === customerId,
    partingEndsAt: parting && partingEnd(parting.saidAt),
  }
}
