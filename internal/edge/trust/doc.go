// Package trust lets phones on a shop's network speak to the program over TLS that
// they trust, which browsers ask for before a page may be loaded again with the
// network gone.
//
// Main type: Authority, a certificate authority of this computer alone; Load reads
// it from a folder, or makes it there. Certificate gives one for the names of this
// computer, signed by it. Pairing is the port and token by which phones come back. In: a folder, names and addresses, the time. Out: what the
// server of crypto/tls takes, and the root that a person puts on the phone.
//
// The root is bound to private addresses and this computer's own (name
// constraints, RFC 5280 4.2.1.10), so that whoever stole its key could speak for
// nobody else. It fetches nothing, renews nothing by itself, trusts nobody.
package trust
