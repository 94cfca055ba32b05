/**
 * The frames of what is broadcast. A summary is encoded already, for its row; whoever watches gets that very text.
 * Everything else, and all that is received, is the parser's own, so that any client of the protocol understands it.
 */
import { Decoder, Encoder, type Packet, PacketType } from 'socket.io-parser'

/** JSON text in the place of a message's body. */
export class Encoded {
  constructor(readonly json: string) {}
}

class FrameEncoder extends Encoder {
  override encode(packet: Packet) {
    if (packet.type !== PacketType.EVENT || packet.id !== undefined) return super.encode(packet)
    const [name, body, ...more] = packet.data as unknown[]
    if (!(body instanceof Encoded) || more.length > 0) return super.encode(packet)
    const namespace = packet.nsp === '/' ? '' : `${packet.nsp},`
    return [`${PacketType.EVENT}${namespace}[${JSON.stringify(name)},${body.json}]`]
  }
}

export const parser = { Encoder: FrameEncoder, Decoder }
