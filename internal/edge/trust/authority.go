package trust

import (
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// The root is put on a phone by hand, which nobody does twice gladly; what it signs
// lives no longer than phones accept (some refuse more than 825 days even of an
// authority that was put there by hand; common practice, no source).
const (
	rootYears = 10
	leafDays  = 397
	early     = time.Hour // clocks of phones may be slow
)

// file holds the root and its key, readable by its owner alone.
const file = "authority.pem"

// private are the ranges that the root may speak for: RFC 1918, RFC 3927, RFC 4193,
// and the loopback.
var private = []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "fc00::/7", "fe80::/10", "127.0.0.0/8", "::1/128"}

// Authority signs for this computer.
type Authority struct {
	root *x509.Certificate
	key  crypto.Signer
}

// Load reads the authority of a folder. Where there is none, where it has run out,
// or was made for other names, a new one is made there; fresh says so, because the
// phones that trusted the old one do not trust it.
func Load(folder string, names []string, now time.Time) (a *Authority, fresh bool, err error) {
	path := filepath.Join(folder, file)
	data, err := os.ReadFile(path)
	if err == nil {
		if a, err = parse(data); err != nil {
			return nil, false, fmt.Errorf("%s: %w; remove it, and a new one is made", path, err)
		}
		if a.serves(names, now) {
			return a, false, nil
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, false, fmt.Errorf("reading the authority of this computer: %w", err)
	}
	if a, err = begin(names, now); err != nil {
		return nil, false, fmt.Errorf("making an authority of this computer: %w", err)
	}
	if err := a.save(folder, path); err != nil {
		return nil, false, fmt.Errorf("keeping the authority of this computer: %w", err)
	}
	return a, true, nil
}

// serves says whether it may sign for these names for a while longer.
func (a *Authority) serves(names []string, now time.Time) bool {
	if now.Before(a.root.NotBefore) || now.AddDate(0, 0, leafDays).After(a.root.NotAfter) {
		return false
	}
	own := map[string]bool{}
	for _, n := range a.root.PermittedDNSDomains {
		own[n] = true
	}
	for _, n := range dns(names) {
		if !own[n] {
			return false
		}
	}
	for _, ip := range ips(names) {
		if !a.permits(ip) {
			return false
		}
	}
	return true
}

func (a *Authority) permits(ip net.IP) bool {
	return slices.ContainsFunc(a.root.PermittedIPRanges, func(r *net.IPNet) bool { return r.Contains(ip) })
}

// dns are the names among names and addresses, lower case.
func dns(names []string) []string {
	out := []string{"localhost"}
	for _, n := range names {
		if net.ParseIP(n) == nil && n != "" {
			out = append(out, strings.ToLower(n))
		}
	}
	return out
}

// ips are the addresses among names and addresses.
func ips(names []string) []net.IP {
	var out []net.IP
	for _, n := range names {
		if ip := net.ParseIP(n); ip != nil {
			out = append(out, ip)
		}
	}
	return out
}

// begin makes a root for names, for the private ranges and for the addresses of its
// own that this computer has besides.
func begin(names []string, now time.Time) (*Authority, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	t := &x509.Certificate{
		SerialNumber: serial(), Subject: pkix.Name{CommonName: "dropleg on " + dns(names)[len(dns(names))-1], Organization: []string{"dropleg, this shop alone"}},
		NotBefore: now.Add(-early), NotAfter: now.AddDate(rootYears, 0, 0),
		IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true, KeyUsage: x509.KeyUsageCertSign,
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: dns(names),
	}
	for _, r := range private {
		_, block, err := net.ParseCIDR(r)
		if err != nil {
			return nil, err
		}
		t.PermittedIPRanges = append(t.PermittedIPRanges, block)
	}
	for _, ip := range ips(names) {
		if !(&Authority{root: t}).permits(ip) {
			t.PermittedIPRanges = append(t.PermittedIPRanges, alone(ip))
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, t, t, key.Public(), key)
	if err != nil {
		return nil, err
	}
	root, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	return &Authority{root, key}, nil
}

// alone is the range of one address.
func alone(ip net.IP) *net.IPNet {
	if four := ip.To4(); four != nil {
		ip = four
	}
	return &net.IPNet{IP: ip, Mask: net.CIDRMask(8*len(ip), 8*len(ip))}
}

// serial is a number of 120 bits that nobody guesses.
func serial() *big.Int {
	var b [15]byte
	_, _ = rand.Read(b[:]) // never fails (crypto/rand)
	return new(big.Int).SetBytes(b[:])
}

func parse(data []byte) (*Authority, error) {
	var a Authority
	for block, rest := pem.Decode(data); block != nil; block, rest = pem.Decode(rest) {
		switch block.Type {
		case "CERTIFICATE":
			root, err := x509.ParseCertificate(block.Bytes)
			if err != nil {
				return nil, fmt.Errorf("its certificate cannot be read: %w", err)
			}
			a.root = root
		case "EC PRIVATE KEY":
			key, err := x509.ParseECPrivateKey(block.Bytes)
			if err != nil {
				return nil, errors.New("its key cannot be read")
			}
			a.key = key
		}
	}
	if a.root == nil || a.key == nil {
		return nil, errors.New("it does not hold a certificate and its key")
	}
	if own, ok := a.root.PublicKey.(*ecdsa.PublicKey); !ok || !own.Equal(a.key.Public()) {
		return nil, errors.New("its key is not that of its certificate")
	}
	return &a, nil
}

// save writes a new file and puts it in place, so that a broken one is never read.
func (a *Authority) save(folder, path string) error {
	key, err := x509.MarshalECPrivateKey(a.key.(*ecdsa.PrivateKey))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	text := append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: a.root.Raw}), pem.EncodeToMemory(&pem.Block{Type: "EC PRIVATE KEY", Bytes: key})...)
	if err := os.WriteFile(path+".new", text, 0o600); err != nil {
		return err
	}
	return os.Rename(path+".new", path)
}

// Root is the certificate that is put on a phone, DER as phones take it.
func (a *Authority) Root() []byte { return a.root.Raw }

// Fingerprint is the SHA-256 of the root, in pairs of hexadecimal digits as phones show it.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.root.Raw)
	pairs := make([]string, len(sum))
	for i, b := range sum {
		pairs[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(pairs, ":")
}
