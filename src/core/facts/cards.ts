/**
 * Distance between two expansion slots: 0.8 inch (ATX Specification 2.x, expansion slot spacing). A card that is any
 * thicker than a whole number of slots covers the next one too.
 */
export const SLOT_PITCH_MM = 20.32

/** Slots that a card covers. */
export const slotsOf = (thicknessMm: number): number => Math.ceil(thicknessMm / SLOT_PITCH_MM)

/** Height of a card's bracket (PCI Express CEM): full height and low profile. */
export const BRACKET_MM = { 'full height': 120.02, 'low profile': 79.2 } as const
