/**
 * Shapes that the store's workshop gives a board of each kind, mm. Of the usual order for the kind (common practice, no source).
 */
import type { Shape } from "../recipe.ts";

export const violinShape: Shape = {
  radiusNutMm: 42,
  radiusEndMm: 42,
  radiusSwellMm: 0,
  hollowLowestMm: 0.7,
  hollowHighestMm: 0.5,
  deepestAt: 0.5,
  rollDeg: 0.3,
  twistDeg: 0.1,
  heightMm: 10,
  pitch: 0.002,
  facet: null,
  bendMm: 0,
};
export const violaShape: Shape = {
  ...violinShape,
  hollowLowestMm: 1,
  hollowHighestMm: 0.6,
  rollDeg: -0.4,
  heightMm: 11,
};
export const celloShape: Shape = {
  ...violinShape,
  radiusNutMm: 65,
  radiusEndMm: 65,
  hollowLowestMm: 1.5,
  hollowHighestMm: 1,
  rollDeg: 0.5,
  heightMm: 15,
  pitch: -0.001,
};
export const bassShape: Shape = {
  ...violinShape,
  radiusNutMm: 80,
  radiusEndMm: 80,
  hollowLowestMm: 2.5,
  hollowHighestMm: 1.5,
  rollDeg: 0.2,
  heightMm: 22,
  pitch: 0.0015,
};
