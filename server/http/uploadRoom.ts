/**
 * The room that all uploads under way may take up together, so that many at once, or many that stall, can't fill the memory.
 *
 * An upload takes its share byte by byte as it arrives, never what it only announces. The one that would go over is refused and
 * may be sent again; those that came before it go on.
 */
import { Problem } from "./problems.ts";

/** What one upload takes up; `leave` gives it back, and more than once does no harm. */
export type ShareOfRoom = {
  /** Throws a Problem (`busy`) where there is no room for so many bytes more. */
  grow(bytes: number): void;
  /** The same for what came of an upload that was taken: it is never refused, but leaves less to the next. */
  growAnyhow(bytes: number): void;
  leave(): void;
};

export type UploadRoom = { enter(): ShareOfRoom };

const busyRetryAfterSeconds = 5;

export function uploadRoom(mostBytes: number): UploadRoom {
  let takenBytes = 0;
  return {
    enter() {
      let shareBytes = 0;
      const growAnyhow = (bytes: number) => {
        shareBytes += bytes;
        takenBytes += bytes;
      };
      return {
        grow(bytes) {
          if (takenBytes + bytes > mostBytes) {
            const detail = "Many uploads are under way: nothing of this one was kept. Send it again in a few seconds.";
            throw new Problem("busy", { detail, retryAfterSeconds: busyRetryAfterSeconds });
          }
          growAnyhow(bytes);
        },
        growAnyhow,
        leave() {
          takenBytes -= shareBytes;
          shareBytes = 0;
        },
      };
    },
  };
}
