/** X.509 certificates (RFC 5280) of the shop's own: an authority that is bound to the shop's names, and a server's under it. */
import { webcrypto, X509Certificate } from 'node:crypto'
import { BlockList, isIP } from 'node:net'
import { AsnConvert } from '@peculiar/asn1-schema'
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509'
import * as x509 from '@peculiar/x509'

/** PEM both. */
export interface Pair {
  cert: string
  key: string
}

/**
 * Names that stand for a machine of one's own network, whoever's it is: loopback (RFC 6761), multicast DNS (RFC 6762), homes
 * (RFC 8375). A name permits what ends in it too.
 */
const OWN_NAMES = ['localhost', 'local', 'home.arpa']
/** Addresses that no network outside hands out: RFC 1122, 1918, 3927, 4193, 4291, 6598. */
const OWN_NETWORKS = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '127.0.0.0/8',
  '169.254.0.0/16',
  '100.64.0.0/10',
  '::1/128',
  'fc00::/7',
  'fe80::/10',
]

const KEY = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGNING = { name: 'ECDSA', hash: 'SHA-256' } as const

/**
 * It can speak for `names` and for machines of one's own network, and for no other: with its key stolen, a tablet that trusts
 * it still takes no false bank from anybody.
 */
export async function makeAuthority(names: string[], from: number, until: number): Promise<Pair> {
  const keys = await newKeys()
  const ips = names.filter((name) => isIP(name))
  const permitted = [
    ...[...OWN_NAMES, ...names.filter((name) => !isIP(name))].map((dNSName) => ({ dNSName })),
    ...[...OWN_NETWORKS, ...ips.map((ip) => `${ip}/${isIP(ip) === 4 ? 32 : 128}`)].map((iPAddress) => ({
      iPAddress,
    })),
  ].map((name) => new GeneralSubtree({ base: new GeneralName(name) }))
  const constraints = new NameConstraints({ permittedSubtrees: new GeneralSubtrees(permitted) })
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: newSerial(),
    // With its year: tablets list the one before beside it.
    name: nameOf(`Paintmark, this shop, ${new Date(from).getUTCFullYear()}`),
    notBefore: new Date(from),
    notAfter: new Date(until),
    signingAlgorithm: SIGNING,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(constraints)),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  })
  return { cert: `${cert.toString('pem')}\n`, key: await privatePem(keys) }
}

export async function makeServerCertificate(
  authority: Pair,
  subject: string,
  names: string[],
  from: number,
  until: number,
): Promise<Pair> {
  const keys = await newKeys()
  const issuer = new x509.X509Certificate(authority.cert)
  const signingKey = await webcrypto.subtle.importKey('pkcs8', derOf(authority.key), KEY, false, ['sign'])
  const cert = await x509.X509CertificateGenerator.create({
    serialNumber: newSerial(),
    subject: nameOf(subject),
    issuer: issuer.subjectName,
    notBefore: new Date(from),
    notAfter: new Date(until),
    signingAlgorithm: SIGNING,
    publicKey: keys.publicKey,
    signingKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((name) => ({ type: isIP(name) ? ('ip' as const) : ('dns' as const), value: name })),
      ),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  })
  return { cert: `${cert.toString('pem')}\n`, key: await privatePem(keys) }
}

/** What an authority may speak for; every name where it is bound to none. */
export function permittedBy(authority: string): { bound: boolean; permits(name: string): boolean } {
  const extension = new x509.X509Certificate(authority).getExtension(id_ce_nameConstraints)
  if (!extension) return { bound: false, permits: () => true }
  const { permittedSubtrees } = AsnConvert.parse(extension.value, NameConstraints)
  const networks = new BlockList()
  const names: string[] = []
  for (const { base } of permittedSubtrees ?? []) {
    if (base.dNSName) names.push(base.dNSName.toLowerCase())
    const [network, bits] = base.iPAddress?.split('/') ?? []
    if (network) networks.addSubnet(network, Number(bits), isIP(network) === 6 ? 'ipv6' : 'ipv4')
  }
  return {
    bound: true,
    permits(name) {
      const kind = isIP(name)
      if (kind) return networks.check(name, kind === 6 ? 'ipv6' : 'ipv4')
      const asked = name.toLowerCase()
      return names.some((own) => asked === own || asked.endsWith(`.${own}`))
    },
  }
}

const nameOf = (commonName: string) => new x509.Name([{ CN: [commonName] }])

const newKeys = () => webcrypto.subtle.generateKey(KEY, true, ['sign', 'verify'])

/** Positive, and longer than anybody guesses (RFC 5280, 4.1.2.2). */
function newSerial(): string {
  const bytes = webcrypto.getRandomValues(new Uint8Array(16))
  return `4${Buffer.from(bytes).toString('hex').slice(1)}`
}

async function privatePem({ privateKey }: webcrypto.CryptoKeyPair): Promise<string> {
  const der = await webcrypto.subtle.exportKey('pkcs8', privateKey)
  return `${x509.PemConverter.encode(der, 'PRIVATE KEY')}\n`
}

const derOf = (pem: string): ArrayBuffer => x509.PemConverter.decodeFirst(pem)

/** SHA-256, as a tablet shows it. */
export const fingerprintOf = (pem: string): string => new X509Certificate(pem).fingerprint256
