/* Wine 8 has no bcryptprimitives.dll, in which Python looks for random numbers. Its one function is here, by an older one. */
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(PVOID, ULONG);

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE bytes, SIZE_T count)
{
    return SystemFunction036(bytes, (ULONG)count);
}
