/** Pictures of a header as they cross the bridge. */

import * as z from 'zod';
import { idSchema, nameSchema, PICTURE_BYTES_LIMIT, PICTURE_SIDE_PX, PICTURES_LIMIT } from '../../core/index.ts';
import { requestId } from './messages.ts';

/** One line, or nothing. */
const captionSchema = z.union([nameSchema, z.literal('')]);
const sidePx = z.int().min(1).max(PICTURE_SIDE_PX);

export const pictureShape = {
  caption: captionSchema,
  mediaType: z.enum(['image/jpeg', 'image/png']),
  widthPx: sidePx,
  heightPx: sidePx,
};

/** Four letters for every three bytes. */
export const pictureContent = z
  .base64()
  .min(1)
  .max(4 * Math.ceil(PICTURE_BYTES_LIMIT / 3));

/** In their order. */
export const picturesSchema = z.strictObject({
  pictures: z.array(z.strictObject({ id: idSchema, ...pictureShape })).max(PICTURES_LIMIT),
});

export const addPictureSchema = z.strictObject({
  requestId,
  headerId: idSchema,
  picture: z.strictObject({ ...pictureShape, content: pictureContent }),
});

export const changePictureSchema = z.strictObject({
  headerId: idSchema,
  pictureId: idSchema,
  change: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('caption'), caption: captionSchema }),
    /** Its place among the others, from 0. */
    z.strictObject({
      kind: z.literal('move'),
      to: z
        .int()
        .min(0)
        .max(PICTURES_LIMIT - 1),
    }),
    z.strictObject({ kind: z.literal('remove') }),
  ]),
});
