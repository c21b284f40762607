package trust

import (
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// Pairing is by what phones find this computer again and are let in again: labels on
// the wall lead to its port for years, and nobody scans a code each morning.
type Pairing struct {
	Port  int    `json:"port"`  // 0: none yet
	Token string `json:"token"` // 128 bits, hexadecimal
}

// pairingFile is readable by its owner alone: who has the token is let in.
const pairingFile = "network.json"

// NewPairing is one that nobody knows yet, at a port.
func NewPairing(port int) Pairing {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails (crypto/rand)
	return Pairing{Port: port, Token: hex.EncodeToString(b[:])}
}

// Paired reads the pairing of a folder, and makes one where there is none that can be
// used. It is kept by Keep alone.
func Paired(folder string) Pairing {
	var p Pairing
	data, err := os.ReadFile(filepath.Join(folder, pairingFile))
	if err == nil {
		err = json.Unmarshal(data, &p)
	}
	token, bad := hex.DecodeString(p.Token)
	if err != nil || bad != nil || len(token) != 16 || p.Port < 0 || p.Port > 65535 {
		return NewPairing(0)
	}
	return p
}

// Keep writes it for the next start.
func (p Pairing) Keep(folder string) error {
	data, err := json.Marshal(p)
	if err == nil {
		err = os.MkdirAll(folder, 0o700)
	}
	path := filepath.Join(folder, pairingFile)
	if err == nil {
		err = os.WriteFile(path+".new", data, 0o600)
	}
	if err == nil {
		err = os.Rename(path+".new", path)
	}
	if err != nil {
		return fmt.Errorf("keeping the token for phones: %w", err)
	}
	return nil
}
