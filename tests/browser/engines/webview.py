# One WebKitGTK web view of a phone's size on a profile of its own, driven line by line over standard input: one JSON
# command in, one JSON answer out. It outlives its storage process, which a WebDriver session does not.
import json
import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gio, GLib, Gtk, WebKit2  # noqa: E402

profile, width, height = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])


def answer(number, value=None, error=None):
    print(json.dumps({"id": number, "value": value, "error": error}), flush=True)


manager = WebKit2.WebsiteDataManager(base_data_directory=f"{profile}/data", base_cache_directory=f"{profile}/cache")
context = WebKit2.WebContext(website_data_manager=manager)


def on_download(_context, download):
    def decide(one, name):
        one.set_destination(GLib.filename_to_uri(f"{profile}/downloads/{name}"))
        return True

    download.connect("decide-destination", decide)


context.connect("download-started", on_download)
view = WebKit2.WebView(web_context=context)
# With acceleration a snapshot never comes on a screen without one.
view.get_settings().set_hardware_acceleration_policy(WebKit2.HardwareAccelerationPolicy.NEVER)
view.get_settings().set_enable_write_console_messages_to_stdout(False)
window = Gtk.Window(decorated=False)
window.set_default_size(width, height)
window.add(view)
window.show_all()

loading = []


def on_load(_view, event):
    if event == WebKit2.LoadEvent.FINISHED:
        while loading:
            answer(loading.pop())


def on_failed(_view, _event, uri, error):
    while loading:
        answer(loading.pop(), error=f"{uri}: {error.message}")
    return True


view.connect("load-changed", on_load)
view.connect("load-failed", on_failed)


def run(number, body, given):
    def done(source, result):
        try:
            answer(number, json.loads(source.call_async_javascript_function_finish(result).to_string()))
        except Exception as error:  # noqa: BLE001
            answer(number, error=str(error))

    arguments = GLib.Variant("a{sv}", {"given": GLib.Variant("s", given)})
    view.call_async_javascript_function(body, -1, arguments, None, None, None, done)


def shot(number, path):
    def done(source, result):
        try:
            source.get_snapshot_finish(result).write_to_png(path)
            answer(number)
        except Exception as error:  # noqa: BLE001
            answer(number, error=str(error))

    view.get_snapshot(WebKit2.SnapshotRegion.VISIBLE, WebKit2.SnapshotOptions.NONE, None, done)


def obey(command):
    number = command["id"]
    if "goto" in command:
        loading.append(number)
        view.load_uri(command["goto"])
    elif "run" in command:
        run(number, command["run"], command["given"])
    elif "shot" in command:
        shot(number, command["shot"])


def on_line(stream, result):
    line = stream.read_line_finish_utf8(result)[0]
    if line is None:
        Gtk.main_quit()
        return
    obey(json.loads(line))
    stream.read_line_async(GLib.PRIORITY_DEFAULT, None, on_line)


commands = Gio.DataInputStream.new(Gio.UnixInputStream.new(0, False))
commands.read_line_async(GLib.PRIORITY_DEFAULT, None, on_line)
answer(0)
Gtk.main()
