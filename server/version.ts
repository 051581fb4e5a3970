/** The version that stands in every examination and in the API's description: the package's own. */
import manifest from "../package.json" with { type: "json" };

export const version: string = manifest.version;
