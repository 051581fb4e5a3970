/**
 * The curves of the published non-linear sets, each with its derivatives by the parameters, by the formula it is published with.
 */
import type { Curve } from "./gaussNewton.ts";

const approach: Curve = {
  valueAt: (x, [b1, b2]) => b1! * (1 - Math.exp(-b2! * x)),
  gradientAt: (x, [b1, b2]) => [1 - Math.exp(-b2! * x), b1! * x * Math.exp(-b2! * x)],
};

const cubicOverCubic: Curve = {
  valueAt: (x, b) => cubicParts(x, b).over / cubicParts(x, b).under,
  gradientAt: (x, b) => {
    const { over, under } = cubicParts(x, b);
    const byUnder = -over / under ** 2;
    return [1 / under, x / under, x ** 2 / under, x ** 3 / under, byUnder * x, byUnder * x ** 2, byUnder * x ** 3];
  },
};

function cubicParts(x: number, [b1, b2, b3, b4, b5, b6, b7]: readonly number[]): { over: number; under: number } {
  return { over: b1! + b2! * x + b3! * x ** 2 + b4! * x ** 3, under: 1 + b5! * x + b6! * x ** 2 + b7! * x ** 3 };
}

const growth: Curve = {
  valueAt: (x, [b1, b2, b3, b4]) => b1! / (1 + Math.exp(b2! - b3! * x)) ** (1 / b4!),
  gradientAt: (x, [b1, b2, b3, b4]) => {
    const grown = Math.exp(b2! - b3! * x);
    const share = (1 + grown) ** (-1 / b4!);
    const byExponent = (-b1! * share * grown) / (b4! * (1 + grown));
    return [share, byExponent, -x * byExponent, (b1! * share * Math.log(1 + grown)) / b4! ** 2];
  },
};

const quadraticOverQuadratic: Curve = {
  valueAt: (x, [b1, b2, b3, b4]) => (b1! * (x ** 2 + b2! * x)) / (x ** 2 + b3! * x + b4!),
  gradientAt: (x, [b1, b2, b3, b4]) => {
    const over = x ** 2 + b2! * x;
    const under = x ** 2 + b3! * x + b4!;
    const byUnder = (-b1! * over) / under ** 2;
    return [over / under, (b1! * x) / under, byUnder * x, byUnder];
  },
};

const cooling: Curve = {
  valueAt: (x, [b1, b2, b3]) => b1! * Math.exp(b2! / (x + b3!)),
  gradientAt: (x, [b1, b2, b3]) => {
    const cooled = Math.exp(b2! / (x + b3!));
    return [cooled, (b1! * cooled) / (x + b3!), (-b1! * cooled * b2!) / (x + b3!) ** 2];
  },
};

const bell: Curve = {
  valueAt: (x, [b1, b2, b3]) => (b1! / b2!) * Math.exp(-0.5 * ((x - b3!) / b2!) ** 2),
  gradientAt: (x, [b1, b2, b3]) => {
    const aside = (x - b3!) / b2!;
    const bellAt = Math.exp(-0.5 * aside ** 2);
    return [bellAt / b2!, (b1! * bellAt * (aside ** 2 - 1)) / b2! ** 2, (b1! * bellAt * aside) / b2! ** 2];
  },
};

/** By the formula that stands in the set. */
export const publishedCurves: Readonly<Record<string, Curve>> = {
  "y = b1 (1 - exp(-b2 x))": approach,
  "y = (b1 + b2 x + b3 x^2 + b4 x^3) / (1 + b5 x + b6 x^2 + b7 x^3)": cubicOverCubic,
  "y = b1 / (1 + exp(b2 - b3 x))^(1/b4)": growth,
  "y = b1 (x^2 + b2 x) / (x^2 + b3 x + b4)": quadraticOverQuadratic,
  "y = b1 exp(b2 / (x + b3))": cooling,
  "y = (b1/b2) exp(-0.5 ((x - b3)/b2)^2)": bell,
};
