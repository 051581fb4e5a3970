/**
 * Uploads from their first byte to their answer: what all routes that take files have in common.
 *
 * A form is received whole, within the room that all uploads share, before anything is made of it; only then may it ask for a turn to be
 * examined. The connection's limit on silence holds while the form arrives and while its answer is read; in between the silence is ours.
 */
import type { Request, Response } from "express";
import { type FormTakes, type ReceivedForm, receiveForm } from "./receiveForm.ts";
import { turns } from "./turns.ts";
import { type ShareOfRoom, uploadRoom } from "./uploadRoom.ts";

export type Uploads = {
  /** Receives the form and makes something of it, or null where the client left while sending. The room is given back once it is answered. */
  take<PartName extends string, Made>(
    request: Request,
    response: Response,
    takes: FormTakes<PartName>,
    work: (form: ReceivedForm<PartName>, share: ShareOfRoom) => Promise<Made>,
  ): Promise<Made | null>;
  /** Long files wait here: only so many are examined at once. */
  readonly inTurn: <Made>(work: () => Promise<Made>) => Promise<Made>;
};

const longAtOnce = 2;
/** All that is under way together may have as many bytes as so many of the largest requests. */
const largestAtOnce = 4;

export function uploadsOf(limitBytes: number): Uploads {
  const room = uploadRoom(largestAtOnce * limitBytes);
  return {
    inTurn: turns(longAtOnce),
    async take(request, response, takes, work) {
      const share = room.enter();
      response.once("close", share.leave);
      const form = await receiveForm(request, takes, { limitBytes, share });
      if (form === null) return null;
      const { socket } = request;
      const patienceMs = socket.timeout ?? 0;
      socket.setTimeout(0);
      try {
        return await work(form, share);
      } finally {
        socket.setTimeout(patienceMs);
      }
    },
  };
}
