package fit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// measured is a length as the history tells it, in the units of the job: to the centimetre,
// "6.4 m", or as a tape in feet has it.
func measured(ix *job.Index, x float64) string {
	if ix.Job().Site.Units == string(unit.US) {
		return unit.US.Text(unit.KindLength, x, unit.Env{})
	}
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64) + " m"
}

// brief is a text as it may stand in a message.
func brief(s string) string {
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}

// idOf is the stem of an id from a name: word "tool", name "Die grinder" is
// "tool.die-grinder"; a name without letters or digits gives the fallback.
func idOf(word, name, fallback string) job.ID {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case unicode.IsLetter(r) && r < 128 || unicode.IsDigit(r) && r < 128:
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	stem := strings.Trim(b.String(), "-")
	if stem == "" {
		stem = fallback
	}
	return job.ID(word + "." + stem)
}

// called is what people call a thing: its name, else its id.
func called(name string, id job.ID) string {
	if name != "" {
		return fmt.Sprintf("%q", name)
	}
	return string(id)
}
