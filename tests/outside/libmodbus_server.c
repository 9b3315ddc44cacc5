/* A server of libmodbus on a free port, which it prints: coils 304 to 340, discrete inputs 452 to 473 (every third one
   set), holding registers 352 to 383, and input register 264, which holds 10. */
#include <modbus.h>
#include <netinet/in.h>
#include <stdio.h>
#include <sys/socket.h>

int main(void) {
    modbus_t *it = modbus_new_tcp("127.0.0.1", 0);
    modbus_mapping_t *map = modbus_mapping_new_start_address(304, 37, 452, 22, 352, 32, 264, 1);
    int listener = socket(AF_INET, SOCK_STREAM, 0);
    struct sockaddr_in name = { .sin_family = AF_INET, .sin_addr.s_addr = htonl(INADDR_LOOPBACK) };
    socklen_t size = sizeof name;
    if (bind(listener, (struct sockaddr *) &name, size) || listen(listener, 1)) return 1;
    getsockname(listener, (struct sockaddr *) &name, &size);
    printf("%d\n", ntohs(name.sin_port));
    fflush(stdout);
    for (int i = 0; i < 22; i += 3) map->tab_input_bits[i] = 1;
    map->tab_input_registers[0] = 10;
    modbus_set_response_timeout(it, 0, 500); /* so long it waits before each refusal, in microseconds */
    if (modbus_tcp_accept(it, &listener) < 0) return 1;
    for (;;) {
        unsigned char query[MODBUS_TCP_MAX_ADU_LENGTH];
        int length = modbus_receive(it, query);
        if (length < 0) return 0;
        if (length > 0) modbus_reply(it, query, length, map);
    }
}
