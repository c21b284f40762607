package element

import (
	"fmt"
	"math"
)

// ParamError says which figure a law cannot be made from.
type ParamError struct {
	Name string
	Got  float64
	Want string
}

func (e *ParamError) Error() string {
	return fmt.Sprintf("%s is %v, want %s", e.Name, e.Got, e.Want)
}

// positive checks pairs of name and value.
func positive(pairs ...any) error {
	for i := 0; i < len(pairs); i += 2 {
		name, v := pairs[i].(string), pairs[i+1].(float64)
		if !(v > 0) || math.IsInf(v, 0) {
			return &ParamError{name, v, "a number above zero"}
		}
	}
	return nil
}

// within checks that a value is a number in [low, high].
func within(name string, v, low, high float64) error {
	if v >= low && v <= high && !math.IsInf(v, 0) {
		return nil
	}
	want := fmt.Sprintf("a number from %v to %v", low, high)
	if math.IsInf(high, 1) {
		want = fmt.Sprintf("a number of at least %v", low)
	}
	return &ParamError{name, v, want}
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
