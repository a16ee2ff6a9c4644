//go:build !windows

package backup

import "syscall"

const (
	exdev  = syscall.EXDEV
	enospc = syscall.ENOSPC
	eperm  = syscall.EPERM
)
