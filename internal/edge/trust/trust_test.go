package trust

import (
	"crypto/x509"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var (
	now   = time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	names = []string{"shop-pc", "shop-pc.local", "192.168.1.20", "fd00::5"}
)

func load(t *testing.T, folder string, names []string, now time.Time) (*Authority, bool) {
	t.Helper()
	a, fresh, err := Load(folder, names, now)
	if err != nil {
		t.Fatal(err)
	}
	return a, fresh
}

// verified checks a certificate as a client does that trusts the root alone
// (crypto/x509 is the other party here).
func verified(t *testing.T, a *Authority, names []string, host string, at time.Time) error {
	t.Helper()
	made, err := a.Certificate(names, now)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(made.Certificate[0])
	if err != nil {
		t.Fatal(err)
	}
	root, err := x509.ParseCertificate(a.Root())
	if err != nil {
		t.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(root)
	_, err = leaf.Verify(x509.VerifyOptions{DNSName: host, Roots: pool, CurrentTime: at})
	return err
}

func TestAPhoneThatTrustsTheRootTrustsThisComputerAlone(t *testing.T) {
	a, fresh := load(t, t.TempDir(), names, now)
	if !fresh {
		t.Error("made and not said")
	}
	for _, host := range names {
		if err := verified(t, a, names, host, now.AddDate(1, 0, 0)); err != nil {
			t.Errorf("%s: %v", host, err)
		}
	}
	if err := verified(t, a, names, "shop-pc", now.AddDate(0, 0, leafDays+1)); err == nil {
		t.Error("good for ever")
	}
	for _, other := range []string{"example.org", "elsewhere.local"} {
		if err := verified(t, a, append([]string{other}, names...), other, now); err == nil {
			t.Errorf("it may speak for %s", other)
		}
	}
	// An address out of the private ranges is permitted to the root that was made for it, and to no other.
	with := append([]string{"203.0.113.7"}, names...)
	own, _ := load(t, t.TempDir(), with, now)
	if err := verified(t, own, with, "203.0.113.7", now); err != nil {
		t.Error(err)
	}
	for host, a := range map[string]*Authority{"203.0.113.7": a, "203.0.113.8": own} {
		if err := verified(t, a, append([]string{host}, names...), host, now); err == nil {
			t.Errorf("it speaks for %s", host)
		}
	}
}

func TestTheAuthorityStaysAsLongAsItServes(t *testing.T) {
	folder := t.TempDir()
	first, _ := load(t, folder, names, now)
	for _, row := range []struct {
		why   string
		names []string
		at    time.Time
		fresh bool
	}{
		{"another start", names, now.AddDate(0, 1, 0), false},
		{"another address", []string{"shop-pc", "shop-pc.local", "10.0.0.4"}, now.AddDate(1, 0, 0), false},
		{"an address of no private range", []string{"shop-pc", "203.0.113.9"}, now, true},
		{"another name", []string{"bench-pc"}, now, true},
		{"run out", []string{"bench-pc"}, now.AddDate(rootYears, 0, 0), true},
	} {
		a, fresh := load(t, folder, row.names, row.at)
		if fresh != row.fresh {
			t.Errorf("%s: made anew %v, want %v", row.why, fresh, row.fresh)
		}
		if same := a.Fingerprint() == first.Fingerprint(); same == row.fresh {
			t.Errorf("%s: the same root: %v", row.why, same)
		}
	}
	info, err := os.Stat(filepath.Join(folder, file))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read its key: %v %v", info.Mode(), err)
	}
}

func TestWhatCannotBeReadIsSaid(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, file)
	load(t, folder, names, now)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	other := t.TempDir()
	load(t, other, names, now)
	strange, err := os.ReadFile(filepath.Join(other, file))
	if err != nil {
		t.Fatal(err)
	}
	key := strings.Index(string(whole), "-----BEGIN EC")
	for _, text := range []string{"", "hello", string(whole[:key]), string(whole[:key]) + string(strange[strings.Index(string(strange), "-----BEGIN EC"):])} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, _, err := Load(folder, names, now); err == nil || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "remove it") {
			t.Errorf("%.20q: %v", text, err)
		}
	}
}

func TestPairingStays(t *testing.T) {
	folder := t.TempDir()
	p := Paired(folder)
	if len(p.Token) != 32 || p == Paired(folder) {
		t.Errorf("%v is no secret", p)
	}
	p.Port = 4711
	if err := p.Keep(folder); err != nil {
		t.Fatal(err)
	}
	if got := Paired(folder); got != p {
		t.Errorf("kept %v, read %v", p, got)
	}
	path := filepath.Join(folder, pairingFile)
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v %v", info, err)
	}
	for _, text := range []string{"", "{", `{"port":4711,"token":"short"}`, `{"port":-1,"token":"` + p.Token + `"}`} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := Paired(folder); got.Port != 0 || len(got.Token) != 32 || got.Token == p.Token {
			t.Errorf("%q: %v", text, got)
		}
	}
	if p.Keep(filepath.Join(path, "x")) == nil {
		t.Error("kept in a file")
	}
}
