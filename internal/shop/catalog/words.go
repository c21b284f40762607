package catalog

// Groups lists the shelves that kinds stand on, in the order of lists.
func Groups() []Group { return []Group{Fitting, Valve, Drainage, Treatment, Plant, Outlet} }

// Roles lists what a part can do in the system.
func Roles() []Role {
	return []Role{
		Supplies, Stores, Isolates, Vents, Locks, Drains, Collects, Unions, Flexes, Regulates, Relieves, Checks,
		Filters, Dries, Separates, Cools, Lubricates, Couples, Ends, Branches, Turns, Outlets, Gauges, Automatic, DeOils,
	}
}

// Laws lists the names that a kind's law can have; package model makes elements of them.
func Laws() []string {
	return []string{"none", "minor", "tee", "coupler", "rated-loss", "regulator", "check", "source", "storage", "conductance", "end"}
}

// PortJoints lists how a port can be joined.
func PortJoints() []string {
	return []string{"stock", "thread-female", "thread-male", "socket", "plug", "none"}
}
