/**
 * The two settings of the depth that calls for a dressing under which alarms and small pits are looked at: the usual one, and a
 * strict one under which every wear is worth naming, so that noise alone decides.
 */
export const settingsAsked = { usual: {}, strict: { dress_at: "0.05" } } as const;
export const setNames = ["usual", "strict"] as const;

export type SetName = (typeof setNames)[number];
