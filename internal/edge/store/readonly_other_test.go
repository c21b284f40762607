//go:build !unix

package store

import "errors"

func childReadOnly(string) error { return errors.New("there are no modes here") }
