//go:build !windows

package say

import "syscall"

var troubles = []told{
	{syscall.ENOSPC, DiskFull},
	{syscall.EDQUOT, DiskFull}, // the person's share of it is
	{syscall.EROFS, ReadOnly},
	{syscall.EIO, DiskFault},
	{syscall.ENODEV, Disconnected},
	{syscall.ENXIO, Disconnected},
	{syscall.ESTALE, Disconnected},
	{syscall.ENOTCONN, Disconnected},
	{syscall.EFBIG, TooLong},
	{syscall.ETXTBSY, InUse},
}
