/**
 * Paper, ink and the shading of depth: one hue for each map, the more wood the further from the paper.
 *
 * Depth as a share of the legend's range (0 to 1) -> colour. Stops are joined in CIELAB, so equal depths look like equal steps;
 * lightness falls steadily on paper and rises steadily on the dark sheet; print is grey, for any printer. The paper of each scheme is that of style/paper.css.
 */
import { interpolateLab, piecewise, rgb } from "d3";

export type Scheme = "paper" | "lamp" | "print";
export type MapKind = "wear" | "cut" | "humps";
export type Ramp = (share: number) => string;

const stops: Readonly<Record<Scheme, Readonly<Record<MapKind, readonly string[]>>>> = {
  paper: {
    wear: ["#f6f1e5", "#cdd8d8", "#92b3c0", "#4f83a0", "#235878", "#0f2c4c"],
    cut: ["#f6f1e5", "#efe2c6", "#e4cca0", "#d4b07b", "#c0925a", "#a87641"],
    humps: ["#f6f1e5", "#d5d9bf", "#a5b285", "#74875a", "#4a5f3b", "#26381f"],
  },
  print: {
    wear: ["#ffffff", "#d9d9d9", "#b0b0b0", "#808080", "#505050", "#202020"],
    cut: ["#ffffff", "#f2f2f2", "#e2e2e2", "#cecece", "#b8b8b8", "#a0a0a0"],
    humps: ["#ffffff", "#d9d9d9", "#b0b0b0", "#808080", "#505050", "#202020"],
  },
  lamp: {
    wear: ["#191b1e", "#23394a", "#2f5f7e", "#4b8cb0", "#86bcd8", "#d6eefb"],
    cut: ["#191b1e", "#2b251d", "#413423", "#5a4529", "#765931", "#94713d"],
    humps: ["#191b1e", "#2b3524", "#4a5c38", "#738a57", "#a6ba86", "#e2eecb"],
  },
};

/** Shading for a map in a scheme, in 256 steps. */
export function rampOf(scheme: Scheme, kind: MapKind): Ramp {
  const blend = piecewise(interpolateLab, [...stops[scheme][kind]]);
  const table = Array.from({ length: 256 }, (_, i) => blend(i / 255));
  return (share) => table[Math.round(255 * Math.min(1, Math.max(0, Number.isNaN(share) ? 0 : share)))]!;
}

/**
 * Whether text on this colour is better white than black: relative luminance (WCAG 2.2) below 0.179, where both have the same contrast,
 * 4.58. Every shade can so carry a sounding.
 */
export function wantsLightText(colour: string): boolean {
  const { r, g, b } = rgb(colour);
  const [red, green, blue] = [r, g, b].map((channel) => {
    const share = channel / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue < 0.179;
}
