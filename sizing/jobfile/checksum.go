package jobfile

import (
	"crypto/sha256"
	"fmt"
)

// Checksum identifies a job file by its bytes: "sha256 ..." in
// hexadecimal, as other programs print it.
func Checksum(data []byte) string { return fmt.Sprintf("sha256 %x", sha256.Sum256(data)) }
