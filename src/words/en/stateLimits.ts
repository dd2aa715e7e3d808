import type { BrandValues, SetValues, StateValues } from '../../core/limits/state.ts'
import type { LimitWords } from './limits.ts'

/** How a machine stands today, and brand-name machines: heading, meaning, how to find it out. */
export const STATE_LIMIT_WORDS: Readonly<Record<keyof (StateValues & SetValues & BrandValues), LimitWords>> =
  {
    memoryProfileOn: {
      label: 'Memory profile on',
      meaning: 'Whether the memory runs by its profile, above its standard rates.',
      findOut: "The first page of the board's settings shows it, under XMP or EXPO.",
    },
    modulesInBothChannels: {
      label: 'Modules in both channels',
      meaning: 'Whether the modules sit so that the processor uses both channels to memory.',
      findOut: "Look which slots hold modules; the board's manual says which belong to one channel.",
    },
    displayPluggedInto: {
      label: 'Display plugged into',
      meaning: 'Whether the cable of the display sits in the card or in the board.',
      findOut: 'Look at the back: the sockets of the card lie lower, and crosswise.',
    },
    coolingClean: {
      label: 'Cooling clean',
      meaning: 'Whether cooler, fans and filters are free of dust.',
      findOut: 'Shut down and look through the filter and between the fins; a photo is enough.',
    },
    frontFanFitted: {
      label: 'Fan in front',
      meaning: 'Whether a fan blows in from the front.',
      findOut: 'Look behind the front panel, or hold a strip of paper before it.',
    },
    driversClean: {
      label: 'Display drivers clean',
      meaning: 'Whether drivers of an earlier card are gone.',
      findOut: "The system's list of programs shows what earlier cards left behind.",
    },
    systemFresh: {
      label: 'System freshly set up',
      meaning: 'Whether the system was set up on this board, without years of leftovers.',
      findOut: 'The system’s own information page shows the date it was set up.',
    },
    systemOnFastestDrive: {
      label: 'System on the fastest drive',
      meaning: 'Whether system and games lie on the fastest drive of the machine.',
      findOut: "The system's drive list shows which drive holds it.",
    },
    largeBarOn: {
      label: 'Large window on',
      meaning: "Whether the processor reaches all of the card's memory at once (resizable BAR).",
      findOut: "The board's settings and the card driver's page both show it.",
    },
    processorSetW: {
      label: 'Processor power as set',
      meaning: 'A power limit other than the processor came with, as set in the firmware.',
      findOut: "The board's settings show it as PL2 or PPT, in W.",
    },
    cardSetW: {
      label: 'Card power as set',
      meaning: 'A power limit other than the card came with, as set in its driver.',
      findOut: "The card driver's page shows its power limit, in W or percent.",
    },
    brandBoard: {
      label: 'Board of a brand-name machine',
      meaning: 'Such boards may have plugs, outlines and firmware of their own.',
      findOut: "A board that its maker never sold alone is one; the machine's label tells.",
    },
    brandCase: {
      label: 'Case of a brand-name machine',
      meaning: 'Such cases may have posts and openings of their own.',
      findOut: "A case that its maker never sold alone is one; the machine's label tells.",
    },
    boardSupplyPlug: {
      label: 'Supply plug of the board',
      meaning: 'The main plug that the board takes from the supply.',
      findOut: "Send a photo of the board's main plug; we count its contacts before anything is changed.",
    },
    supplyBoardPlug: {
      label: 'Board plug of the supply',
      meaning: 'The main plug that the supply gives the board.',
      findOut: "Send a photo of the supply's main plug; we count its contacts before anything is changed.",
    },
    boardShape: {
      label: 'Shape of the board',
      meaning: 'Whether outline, holes and back panel follow the standard.',
      findOut: 'We compare its holes with the standard drawing; a photo from above is enough to start.',
    },
    caseBoardMounting: {
      label: 'Posts of the case',
      meaning: 'Whether posts, back opening and front plugs follow the standard.',
      findOut: 'Take the board out or send photos: posts, back opening and front plugs.',
    },
    caseSupplyMounting: {
      label: 'Supply opening of the case',
      meaning: 'Whether the opening and its screws follow a standard supply.',
      findOut: 'Measure the opening for the supply and the distances of its screws, in mm.',
    },
    slotPowerW: {
      label: 'Power from the graphics slot',
      meaning: 'What the slot may feed a card; 75 W by the standard.',
      findOut: "The maker's manual of the machine gives it, in W, for the long slot.",
    },
    firmwareAllowList: {
      label: 'Firmware with a list of parts',
      meaning: 'Whether the machine starts only with parts on its maker’s list.',
      findOut: "The maker's manual or support says so; a lent part tried on our bench shows it.",
    },
    supplyRoomMm: {
      label: 'Room for a supply',
      meaning: 'The free depth for a supply, with its cables.',
      findOut: 'Measure from the back wall to the first thing in the way, in mm.',
    },
  }
