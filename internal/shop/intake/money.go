package intake

import (
	"slices"
	"strings"
	"unicode"
)

// signs are the marks of money beside a figure, and the currencies (ISO 4217) that they
// can mean, the commonest first.
var signs = []struct {
	sign string
	of   []string
}{
	{"US$", []string{"USD"}},
	{"CA$", []string{"CAD"}},
	{"A$", []string{"AUD"}},
	{"NZ$", []string{"NZD"}},
	{"€", []string{"EUR"}},
	{"£", []string{"GBP"}},
	{"$", []string{"USD", "CAD", "AUD", "NZD", "SGD", "MXN"}},
	{"¥", []string{"JPY", "CNY"}},
	{"₹", []string{"INR"}},
	{"zł", []string{"PLN"}},
	{"Kč", []string{"CZK"}},
	{"kr", []string{"SEK", "NOK", "DKK"}},
	{"Fr.", []string{"CHF"}},
	{"SFr", []string{"CHF"}},
	{"R$", []string{"BRL"}},
	{"₺", []string{"TRY"}},
	{"Ft", []string{"HUF"}},
}

// codes are the currencies that lists are written in (ISO 4217).
var codes = []string{
	"USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "HUF", "RON", "BGN", "ISK", "TRY", "JPY", "CNY", "INR", "SGD", "HKD", "KRW",
	"MXN", "BRL", "ARS", "CLP", "COP", "PEN", "ZAR", "ILS", "AED", "SAR", "THB", "MYR", "IDR", "PHP", "VND", "TWD", "UAH", "RSD", "EGP", "MAD", "KES", "NGN",
}

// moneyIn finds the currency that a text names, and the text without it. Where a sign can
// mean several, home is taken if it is one of them, and else all are given.
func moneyIn(text, home string) (found []string, rest string) {
	for _, s := range signs {
		at := strings.Index(text, s.sign)
		if at < 0 || letterAt(text, at-1) && letterAt(s.sign, 0) || letterAt(text, at+len(s.sign)) && letterAt(s.sign, len(s.sign)-1) {
			continue
		}
		rest = strings.TrimSpace(text[:at] + " " + text[at+len(s.sign):])
		if slices.Contains(s.of, home) {
			return []string{home}, rest
		}
		return s.of, rest
	}
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if code := strings.ToUpper(word); slices.Contains(codes, code) {
			return []string{code}, strings.TrimSpace(strings.Replace(text, word, " ", 1))
		}
	}
	return nil, text
}

func letterAt(text string, i int) bool {
	return i >= 0 && i < len(text) && (text[i]|0x20 >= 'a' && text[i]|0x20 <= 'z')
}
