package document

// Plans is the path functions of this package under one name. It keeps nothing:
// what is known of types is shared by all.
type Plans struct{}

// NewPlans gives them.
func NewPlans() *Plans { return &Plans{} }

// Get is the function of that name.
func (*Plans) Get(v any, path string) (raw []byte, present bool, problems []Problem) {
	return Get(v, path)
}

// Set is the function of that name.
func (*Plans) Set(v any, path string, raw []byte) []Problem { return Set(v, path, raw) }

// Gap is the function of that name.
func (*Plans) Gap(v any, path string) string { return Gap(v, path) }

// Verify is the function of that name.
func (*Plans) Verify(v any) []Problem { return Verify(v) }
