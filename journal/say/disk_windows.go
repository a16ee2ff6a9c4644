package say

import "golang.org/x/sys/windows"

var troubles = []told{
	{windows.ERROR_DISK_FULL, DiskFull},
	{windows.ERROR_HANDLE_DISK_FULL, DiskFull},
	{windows.ERROR_WRITE_PROTECT, ReadOnly},
	{windows.ERROR_CRC, DiskFault},
	{windows.ERROR_IO_DEVICE, DiskFault},
	{windows.ERROR_NOT_READY, Disconnected},
	{windows.ERROR_DEV_NOT_EXIST, Disconnected},
	{windows.ERROR_FILE_TOO_LARGE, TooLong},
	{windows.ERROR_SHARING_VIOLATION, InUse},
	{windows.ERROR_LOCK_VIOLATION, InUse},
}
