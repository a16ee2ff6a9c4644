package backup

import "syscall"

const (
	exdev  = syscall.Errno(17)  // ERROR_NOT_SAME_DEVICE
	enospc = syscall.Errno(112) // ERROR_DISK_FULL
	eperm  = syscall.Errno(1)   // ERROR_INVALID_FUNCTION
)
