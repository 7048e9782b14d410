/** Why colour is asked for beside white, for somebody who decides and does not measure. */
export const WHY_COLOUR: readonly string[] = [
  'A projector makes colours from red, green and blue light. In many projectors the brightest white is simply all three together: what the white figure promises, a coloured picture gets.',
  'Others let additional light through for white alone, by a clear or yellow part of a spinning wheel or by a separate source. That makes white text on an empty page brighter and the number in the brochure larger, but a photograph, a map or a film has no use for it: next to the bright white its colours look dark and dull, and with the blinds open they are the first to fade.',
  'So two projectors with the same white figure can differ widely in what a class sees. Colour light output, the light of red, green and blue added, tells them apart. Ask for both figures; where the second is clearly below the first, the picture is darker than the first one says.',
];
