package element

import "fmt"

// ParamError says which figure a law cannot be made from.
type ParamError struct {
	Name string
	Got  float64
	Want string
}

func (e *ParamError) Error() string {
	return fmt.Sprintf("%s is %v, want %s", e.Name, e.Got, e.Want)
}

// Bounds of what a law is made from, far outside any shop: within them no square
// or product of figures leaves the range of a float64.
const (
	leastBore, mostBore = 1e-6, 100 // m
	mostLength          = 1e7       // m
	mostK               = 1e9
	mostPressure        = 1e12 // Pa, of settings
	mostDroop           = 1e15 // Pa·s/kg
	mostFlow            = 1e9  // kg/s
	mostC               = 1e3  // m³/(s·Pa)
	least, most         = 1e-15, 1e15
)

// positive checks pairs of name and value.
func positive(pairs ...any) error {
	for i := 0; i < len(pairs); i += 2 {
		if err := upTo(pairs[i].(string), pairs[i+1].(float64), most); err != nil {
			return err
		}
	}
	return nil
}

// upTo checks that a value is above zero and no more than high.
func upTo(name string, v, high float64) error {
	switch {
	case v >= least && v <= high:
		return nil
	case !(v > 0):
		return &ParamError{name, v, "a number above zero"}
	}
	return &ParamError{name, v, fmt.Sprintf("a number from %v to %v", least, high)}
}

// within checks that a value is a number in [low, high].
func within(name string, v, low, high float64) error {
	if v >= low && v <= high {
		return nil
	}
	return &ParamError{name, v, fmt.Sprintf("a number from %v to %v", low, high)}
}

// first returns the first error that is one.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
