package server

import (
	"crypto/sha256"
	"crypto/subtle"
	"fmt"
	"maps"
	"net"
	"net/http"
	"os"
	"slices"
	"strings"

	"dropleg/internal/edge/trust"
)

// network is what lets others on the local network in: the names of this computer
// there, and the token that they must bring.
type network struct {
	port  string
	token string
	hosts map[string]bool  // lower case, without port
	first string           // the host that others are told
	root  *trust.Authority // what phones are asked to trust; nil: in the clear
}

// newNetwork lists the names of this computer; the token is that of the pairing.
func newNetwork(at net.Addr, p trust.Pairing) (*network, error) {
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		return nil, fmt.Errorf("listening on the network: %w", err)
	}
	n := &network{port: port, token: p.Token, hosts: map[string]bool{}}
	addrs, err := net.InterfaceAddrs()
	if err != nil {
		return nil, fmt.Errorf("listing the addresses of this computer: %w", err)
	}
	own := listeningIP(at)
	for _, a := range addrs {
		ip, ok := a.(*net.IPNet)
		if !ok || ip.IP.IsLoopback() || ip.IP.IsLinkLocalUnicast() || own != nil && !own.Equal(ip.IP) {
			continue
		}
		n.hosts[ip.IP.String()] = true
		// IPv4 is what phones on a shop's Wi-Fi reach most surely.
		if n.first == "" || ip.IP.To4() != nil && strings.Contains(n.first, ":") {
			n.first = ip.IP.String()
		}
	}
	if name, err := os.Hostname(); err == nil && name != "" {
		name = strings.ToLower(name)
		n.hosts[name], n.hosts[name+".local"] = true, true
	}
	if n.first == "" {
		n.first = "127.0.0.1" // no network at present: at least this computer is told
	}
	return n, nil
}

// listeningIP is the one address listened on; nil for all.
func listeningIP(at net.Addr) net.IP {
	if tcp, ok := at.(*net.TCPAddr); ok && !tcp.IP.IsUnspecified() {
		return tcp.IP
	}
	return nil
}

// own says whether a Host header names this computer on the network.
func (n *network) own(host string) bool {
	if n == nil {
		return false
	}
	name, port, err := net.SplitHostPort(host)
	return err == nil && port == n.port && n.hosts[strings.ToLower(strings.TrimSuffix(name, "."))]
}

// address is where others on the network find the page; it holds the token in its
// fragment, which browsers do not send.
func (n *network) address() string { return n.base() + "/#token=" + n.token }

// base is the same without what follows the host.
func (n *network) base() string {
	scheme := "http"
	if n.root != nil {
		scheme = "https"
	}
	return scheme + "://" + net.JoinHostPort(n.first, n.port)
}

// names are the names and addresses of this computer on the network, in order.
func (n *network) names() []string { return slices.Sorted(maps.Keys(n.hosts)) }

// cookie is its name. Cookies do not know ports: two programs must not share one.
func (n *network) cookie() string { return "dropleg-" + n.port }

// admits says whether a request may see data: it comes from this computer, or
// brings the token.
func (n *network) admits(r *http.Request) bool {
	if n == nil || fromHere(r) {
		return true
	}
	for _, c := range r.CookiesNamed(n.cookie()) {
		if n.is(c.Value) {
			return true
		}
	}
	return false
}

// is compares with the token in a time that tells nothing about it.
func (n *network) is(token string) bool {
	a, b := sha256.Sum256([]byte(token)), sha256.Sum256([]byte(n.token))
	return subtle.ConstantTimeCompare(a[:], b[:]) == 1
}

// fromHere says whether a request was sent by this computer itself.
func fromHere(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	ip := net.ParseIP(host)
	return err == nil && ip != nil && ip.IsLoopback()
}

// Invitation is the address that others on the network open, and its QR code in
// block characters; empty where the server listens on the loopback alone.
func (s *Server) Invitation() (address, qr string, err error) {
	if s.network == nil {
		return "", "", nil
	}
	code, err := newQR(s.network.address())
	if err != nil {
		return "", "", err
	}
	return s.network.address(), code.blocks(), nil
}
