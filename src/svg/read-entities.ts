import { StaywrightError } from '../errors.ts';
import { MOST_ENTITIES, MOST_ENTITY_GROWTH, MOST_ENTITY_LENGTH } from './limits.ts';

const DECLARATION = /<!ENTITY\s+(%\s+)?([^\s"'>]+)\s+(?:"([^"]*)"|'([^']*)'|(SYSTEM|PUBLIC)\b)/g;

/**
 * The entities that a document type declares, for drawing programs that abbreviate namespaces with them: plain text only.
 * Throws an `input` error for entities that stand for others, lie outside the file, or are too many or too long;
 * looking one up throws once all look-ups together passed `MOST_ENTITY_GROWTH` characters.
 */
export const readEntities = (doctype: string, where: string): Record<string, string> => {
  const fail = (message: string): never => {
    throw new StaywrightError('input', message, { where, hint: 'save it again as plain SVG from a drawing program' });
  };
  const entities = Object.create(null) as Record<string, string>;
  const subset = doctype.replace(/<!--[^]*?-->/g, '');
  let count = 0;
  let growth = 0;
  for (const [, parameter, name = '', quoted, single, outside] of subset.matchAll(DECLARATION)) {
    if (outside) fail(`the entity ${name} lies outside the file`);
    const value = quoted ?? single ?? '';
    if (parameter || /[&%<]/.test(value)) fail(`the entity ${name} is made of other entities or markup`);
    if (value.length > MOST_ENTITY_LENGTH) fail(`the entity ${name} is over ${MOST_ENTITY_LENGTH} characters`);
    count += 1;
    if (count > MOST_ENTITIES) fail(`over ${MOST_ENTITIES} entities`);
    // The first declaration of a name counts.
    if (name in entities) continue;
    Object.defineProperty(entities, name, {
      get: () => {
        growth += value.length;
        return growth > MOST_ENTITY_GROWTH ? fail('its entities make it too large') : value;
      },
    });
  }
  return entities;
};
