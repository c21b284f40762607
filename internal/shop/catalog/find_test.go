package catalog

import "testing"

// nearly says whether two figures agree to a share of the wanted one.
func nearly(got, want, share float64) bool {
	d := got - want
	if d < 0 {
		d = -d
	}
	if want < 0 {
		want = -want
	}
	return d <= share*want
}

// mustStock finds a stock of the shelf.
func mustStock(t *testing.T, id string) Stock {
	t.Helper()
	s, ok := Builtin().Stock(id)
	if !ok {
		t.Fatalf("no stock %s", id)
	}
	return s
}

func mustSize(t *testing.T, s Stock, size string) Size {
	t.Helper()
	z, ok := s.Size(size)
	if !ok {
		t.Fatalf("%s has no size %s", s.Stock, size)
	}
	return z
}
