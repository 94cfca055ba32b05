/**
 * The frames of what is told and answered as JSON text: a summary is encoded already, for its row, and whoever watches
 * gets that very text; what is known to hold no bytes is not searched for some. Everything else, and all that is received,
 * is the parser's own, so that any client of the protocol understands it.
 */
import { Decoder, Encoder, type Packet, PacketType } from 'socket.io-parser'

/** JSON text in the place of a message's body. */
export class Encoded {
  constructor(readonly json: string) {}

  static of(body: object): Encoded {
    return new Encoded(JSON.stringify(body))
  }
}

class FrameEncoder extends Encoder {
  override encode(packet: Packet) {
    const { type, nsp, id = '', data } = packet
    if (type !== PacketType.EVENT && type !== PacketType.ACK) return super.encode(packet)
    // Of an event its name and the body, of an answer the body alone.
    const body: unknown = data.at(-1)
    if (!(body instanceof Encoded)) return super.encode(packet)
    const name = type === PacketType.EVENT ? `${JSON.stringify(data[0])},` : ''
    return [`${type}${nsp === '/' ? '' : `${nsp},`}${id}[${name}${body.json}]`]
  }
}

export const parser = { Encoder: FrameEncoder, Decoder }
