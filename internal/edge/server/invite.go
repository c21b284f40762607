package server

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"dropleg/internal/edge/trust"
)

// pairing is that of earlier runs, or a new one.
func (o Options) pairing() trust.Pairing {
	if !o.Network || o.Folder == "" {
		return trust.NewPairing(0)
	}
	p := trust.Paired(o.Folder)
	if o.NewToken {
		return trust.NewPairing(p.Port)
	}
	return p
}

// invite makes ready for others on the network.
func (s *Server) invite(o Options, p trust.Pairing) (err error) {
	at := s.listener.Addr()
	if s.network, err = newNetwork(at, p); err != nil {
		return err
	}
	p.Port = at.(*net.TCPAddr).Port // a listener of TCP
	if o.Folder != "" {
		err = p.Keep(o.Folder)
	}
	switch {
	case !o.TLS:
		return nil // where it cannot be kept, phones scan the code again next time
	case o.Folder == "":
		return errors.New("there is no folder to keep the authority of this computer in")
	case err != nil:
		return err
	}
	return s.encrypt(o.Folder, time.Now())
}

// encrypt puts the network's address under TLS and takes a port of the loopback beside
// it, so that this computer's own browser need trust nothing.
func (s *Server) encrypt(folder string, now time.Time) error {
	root, _, err := trust.Load(folder, s.network.names(), now)
	if err != nil {
		return err
	}
	leaf, err := root.Certificate(s.network.names(), now)
	if err != nil {
		return fmt.Errorf("making a certificate: %w", err)
	}
	here, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return fmt.Errorf("listening: %w", err)
	}
	s.network.root = root
	s.secure = tls.NewListener(s.listener, &tls.Config{
		Certificates: []tls.Certificate{leaf}, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"},
	})
	s.listener = here
	return nil
}

// Fingerprint is that of the certificate which phones are asked to trust; "" where
// nothing is encrypted.
func (s *Server) Fingerprint() string {
	if s.network == nil || s.network.root == nil {
		return ""
	}
	return s.network.root.Fingerprint()
}

// getCertificate gives what a phone is to trust. It is nobody's secret, and wanted
// before anything else: no token is asked for.
func (s *Server) getCertificate(w http.ResponseWriter, r *http.Request) {
	if s.network == nil || s.network.root == nil {
		fail(w, http.StatusNotFound, "there is no certificate", noCertificate)
		return
	}
	w.Header().Set("Content-Type", "application/x-x509-ca-cert")
	w.Header().Set("Content-Disposition", `attachment; filename="dropleg.crt"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(s.network.root.Root()) // the reader has gone: nobody to tell
}

const noCertificate = "this run of the program encrypts nothing: start it with dropleg open --trusted"
