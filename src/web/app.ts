import { type Context, Hono } from 'hono'
import { HTTPException } from 'hono/http-exception'
import { methodNotAllowed } from 'hono/method-not-allowed'
import { actingAs } from '../uses/changes.ts'
import { accountRoutes } from './access/account.tsx'
import { accountsRoutes } from './access/accounts.tsx'
import { gate } from './access/gate.ts'
import { accessLogRoutes } from './access/log.tsx'
import { fromOf, isHostTwice } from './access/peer.ts'
import { proof } from './access/proof.tsx'
import { signInRoutes } from './access/signIn.tsx'
import { tokenRoutes } from './access/tokens.tsx'
import { welcomeRoutes } from './access/welcome.tsx'
import { nameOf, who } from './access/who.ts'
import { answerError, apiRoutes } from './api/apiRoutes.ts'
import { exportRoutes } from './api/exportRoutes.ts'
import { referenceRoutes } from './api/reference.tsx'
import {
  isProgram,
  refuseHost,
  refuseMethod,
  refuseTooLarge,
  refuseUnknownPath,
  refuseUnreadable,
} from './api/refusals.ts'
import { askOwnerRoutes } from './askOwner.tsx'
import { assetRoutes } from './assets.ts'
import { backupRoutes } from './backups.tsx'
import { caseLabelRoutes } from './caseLabel.tsx'
import { changeQuestionRoutes } from './changeQuestion.tsx'
import { changeRoutes } from './changes.tsx'
import { customerRoutes } from './customers.tsx'
import { findRoutes } from './find.tsx'
import { findableRoutes } from './findable.tsx'
import type { Web, WebOptions } from './frame.ts'
import { frameLogRoutes } from './frameLog.tsx'
import { frameLogSaveRoutes } from './frameLogSave.tsx'
import { frameLogsRoutes } from './frameLogs.tsx'
import { guard } from './guard.ts'
import { huntRoutes } from './hunt.tsx'
import { importRoutes } from './import.tsx'
import { jobRoutes } from './job.tsx'
import { jobsRoutes } from './jobs.tsx'
import { jobYesRoutes } from './jobYes.tsx'
import { keysRoutes } from './keys.tsx'
import { limitsSheetRoutes, ownerSheetRoutes } from './limitsSheet.tsx'
import { machineOwnerRoutes } from './machineBook.tsx'
import { machineOnRoutes } from './machineOn.tsx'
import { machineRoutes } from './machines.tsx'
import { messageRoutes } from './messages.tsx'
import { modelCardRoutes } from './modelCard.tsx'
import { newMachineRoutes } from './newMachine.tsx'
import { newQuestionRoutes } from './newQuestion.tsx'
import { offersRoutes } from './offers.tsx'
import { onceOnly } from './onceOnly.ts'
import { outboxRoutes } from './outbox.tsx'
import { outboxMailRoutes } from './outboxMail.tsx'
import { outboxManyRoutes } from './outboxMany.tsx'
import { outboxPutRoutes } from './outboxPut.tsx'
import { outboxRulesRoutes } from './outboxRules.tsx'
import { ownerRoutes } from './owner.tsx'
import { nowherePage } from './ownerFrame.tsx'
import { ownerLinkRoutes } from './ownerLink.tsx'
import { partInMindRoutes } from './partInMind.tsx'
import { partRoutes } from './parts.tsx'
import { platformsRoutes } from './platforms.tsx'
import {
  elsewherePage,
  notFoundPage,
  refusedPage,
  thrownPage,
  tooLargePage,
  tooSlowPage,
  unreadablePage,
  wrongMethodPage,
} from './problem.tsx'
import { promisesRoutes } from './promises.tsx'
import { questionRoutes } from './question.tsx'
import { questionListRoutes } from './questionList.tsx'
import { questionMailRoutes } from './questionMails.tsx'
import { standingRoutes } from './questionStanding.tsx'
import { questionsRoutes } from './questions.tsx'
import { readingRoutes } from './reading.tsx'
import { roundRoutes } from './round.tsx'
import { roundOfferRoutes } from './roundOffer.tsx'
import { roundsRoutes } from './rounds.tsx'
import { rulesRoutes } from './rules.tsx'
import { runRoutes } from './run.tsx'
import { runMapRoutes } from './runMap.tsx'
import { runSheetRoutes } from './runSheet.tsx'
import { runsRoutes } from './runs.tsx'
import { sellRoutes } from './sell.tsx'
import { sellMessageRoutes } from './sellMessage.tsx'
import { sellPageRoutes } from './sellPage.tsx'
import { settingRoutes } from './settingNew.tsx'
import { settingsRoutes } from './settings.tsx'
import { shelfRoutes } from './shelf.tsx'
import { shelfItemRoutes } from './shelfItem.tsx'
import { shelfNewRoutes } from './shelfNew.tsx'
import { tapeMeasureRoutes } from './tapeMeasure.tsx'
import { tellAnswers } from './tellAnswers.ts'
import { titleRoutes } from './titles.tsx'
import { unsubscribeRoutes } from './unsubscribe.tsx'
import type { WebUses } from './webUses.ts'
import { whyNotRoutes } from './whyNot.tsx'
import { whyRoutes } from './whyPage.tsx'
import { workPriceRoutes } from './workPrices.tsx'

/** In the log of changes: whoever has a link, and who signs in. */
const NOBODY = 'whoever has a link'

const isOurs = (c: Context, { isOurHost, proxies = [] }: WebOptions): boolean =>
  isOurHost === undefined || isOurHost(new URL(c.req.url).hostname, fromOf(c, proxies))

/** Under the address of owners nothing but their own pages can be reached. */
const isForOwners = (c: Context, { ownerUrl }: WebOptions): boolean =>
  ownerUrl === undefined ||
  new URL(c.req.url).hostname !== new URL(ownerUrl).hostname ||
  /^\/(?:o|u|y|assets)\//.test(c.req.path)

/** All pages, as one request handler; `uses` does the work, so nothing here knows the store or the clock. */
export function createApp(uses: WebUses, options: WebOptions): Hono {
  const web: Web = { uses, options }
  const app = new Hono()
  tellAnswers(app, options)
  guard(app, {
    tooLarge: (c, limitBytes) =>
      isProgram(c) ? refuseTooLarge(c, limitBytes) : tooLargePage(c, web, limitBytes),
    elsewhere: (c) => {
      if (isHostTwice(c)) return isProgram(c) ? refuseUnreadable(c) : unreadablePage(c, web)
      if (!isOurs(c, options)) return isProgram(c) ? refuseHost(c) : elsewherePage(c, web)
      if (isForOwners(c, options)) return undefined
      return isProgram(c) ? refuseHost(c) : nowherePage(c, web)
    },
    gate: gate(web),
    proxies: options.proxies ?? [],
  })
  app.use((c, next) => actingAs(nameOf(who(c)) ?? NOBODY, next))
  app.use(proof(web))
  app.use(onceOnly(web.uses))
  app.use(
    methodNotAllowed({
      app,
      onMethodNotAllowed: (c, allowed) =>
        isProgram(c) ? refuseMethod(c, allowed) : wrongMethodPage(c, web, allowed),
    }),
  )
  assetRoutes(app)
  signInRoutes(app, web)
  welcomeRoutes(app, web)
  accountRoutes(app, web)
  accountsRoutes(app, web)
  tokenRoutes(app, web)
  accessLogRoutes(app, web)
  // Fixed paths before the ones with a key in them: /machines/new is no tag.
  newQuestionRoutes(app, web)
  newMachineRoutes(app, web)
  questionsRoutes(app, web)
  questionListRoutes(app, web)
  questionRoutes(app, web)
  changeQuestionRoutes(app, web)
  whyRoutes(app, web)
  whyNotRoutes(app, web)
  standingRoutes(app, web)
  askOwnerRoutes(app, web)
  ownerLinkRoutes(app, web)
  ownerSheetRoutes(app, web)
  ownerRoutes(app, web)
  partInMindRoutes(app, web)
  jobYesRoutes(app, web)
  jobsRoutes(app, web)
  jobRoutes(app, web)
  machineRoutes(app, web)
  machineOwnerRoutes(app, web)
  readingRoutes(app, web)
  machineOnRoutes(app, web)
  tapeMeasureRoutes(app, web)
  limitsSheetRoutes(app, web)
  caseLabelRoutes(app, web)
  sellRoutes(app, web)
  customerRoutes(app, web)
  sellMessageRoutes(app, web)
  sellPageRoutes(app, web)
  partRoutes(app, web)
  messageRoutes(app, web)
  outboxPutRoutes(app, web)
  outboxRoutes(app, web)
  outboxRulesRoutes(app, web)
  outboxManyRoutes(app, web)
  outboxMailRoutes(app, web)
  questionMailRoutes(app, web)
  unsubscribeRoutes(app, web)
  shelfRoutes(app, web)
  // Before the page of one item, whose pattern takes its address too.
  shelfNewRoutes(app, web)
  shelfItemRoutes(app, web)
  findableRoutes(app, web)
  huntRoutes(app, web)
  roundsRoutes(app, web)
  roundRoutes(app, web)
  roundOfferRoutes(app, web)
  offersRoutes(app, web)
  platformsRoutes(app, web)
  runSheetRoutes(app, web)
  runsRoutes(app, web)
  runMapRoutes(app, web)
  frameLogsRoutes(app, web)
  frameLogRoutes(app, web)
  frameLogSaveRoutes(app, web)
  runRoutes(app, web)
  settingRoutes(app, web)
  titleRoutes(app, web)
  importRoutes(app, web)
  settingsRoutes(app, web)
  workPriceRoutes(app, web)
  backupRoutes(app, web)
  changeRoutes(app, web)
  rulesRoutes(app, web)
  promisesRoutes(app, web)
  modelCardRoutes(app, web)
  findRoutes(app, web)
  keysRoutes(app, web)
  apiRoutes(app, web)
  referenceRoutes(app, web)
  exportRoutes(app, web)
  app.notFound((c) => (isProgram(c) ? refuseUnknownPath(c) : notFoundPage(c, web)))
  app.onError((error, c) => {
    if (isProgram(c)) return answerError(c, web, error)
    if (error instanceof HTTPException && error.status === 403) return refusedPage(c, web)
    if (error instanceof HTTPException && error.status === 400) return unreadablePage(c, web)
    if (error instanceof HTTPException && error.status === 504) return tooSlowPage(c, web)
    return thrownPage(c, web, error)
  })
  return app
}
