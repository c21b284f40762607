package trust

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"time"
)

// Certificate is one for this computer's names and addresses, with a key that is
// never written anywhere. They must be those that the authority was loaded for:
// phones refuse the whole of a certificate that names others.
func (a *Authority) Certificate(names []string, now time.Time) (tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return tls.Certificate{}, err
	}
	t := &x509.Certificate{
		SerialNumber: serial(), Subject: pkix.Name{CommonName: a.root.Subject.CommonName},
		NotBefore: now.Add(-early), NotAfter: now.AddDate(0, 0, leafDays),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		DNSNames: dns(names), IPAddresses: ips(names),
	}
	der, err := x509.CreateCertificate(rand.Reader, t, a.root, key.Public(), a.key)
	if err != nil {
		return tls.Certificate{}, err
	}
	return tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}, nil
}
