package unit

import "testing"

func TestNearest(t *testing.T) {
	words := []string{"psi", "psig", "psia", "bar", "bara", "kPa", "L/min"}
	for _, c := range []struct{ read, want string }{
		{"psi", "psi"},
		{"pis", "psi"},
		{"bra", "bar"},
		{"kpa", "kPa"},
		{"l/mn", "L/min"},
		{"furlong", ""},
		{"", ""},
	} {
		if got := Nearest(c.read, words); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.read, got, c.want)
		}
	}
}

// A word of which only a part was said is found where the part tells.
func TestNearestByPart(t *testing.T) {
	words := []string{"long-board-sander", "da-sander-6", "spray-gun"}
	for _, c := range []struct{ read, want string }{{"sander", "da-sander-6"}, {"Spray", "spray-gun"}, {"gun", ""}, {"sanding", ""}} {
		if got := Nearest(c.read, words); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.read, got, c.want)
		}
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0},
		{"bar", "bar", 0},
		{"", "bar", 3},
		{"bar", "", 3},
		{"bra", "bar", 1},
		{"kitten", "sitting", 3},
	} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
