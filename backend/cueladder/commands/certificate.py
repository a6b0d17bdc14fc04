"""HTTPS for a laptop at the salle: a local authority, a certificate, an nginx configuration."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from string import Template

import click

YEARS, DAYS = 5, 397  # phones reject server certificates valid for longer
NAME = re.compile(r"[a-z0-9]([a-z0-9.-]*[a-z0-9])?")
SITE = Template("""\
# Made by `cueladder certificate`; start with: sudo nginx -c $folder/nginx.conf
pid $folder/nginx.pid;
error_log $folder/error.log;
events {}
http {
    # a progress link is a key: keep it out of the log
    access_log off;
    server {
        listen $port ssl;
        server_name $name;
        ssl_certificate     $folder/cert.pem;
        ssl_certificate_key $folder/key.pem;
        ssl_protocols TLSv1.2 TLSv1.3;
        client_max_body_size 2m;
        location / {
            proxy_pass http://127.0.0.1:$inner;
            proxy_set_header Host $$http_host;
            proxy_set_header X-Forwarded-Host $$http_host;
            proxy_set_header X-Forwarded-For $$remote_addr;
            proxy_set_header X-Forwarded-Proto $$scheme;
        }
    }
}
""")


@click.command()
@click.option("--name", default="salle.local", show_default=True, help="What phones call it.")
@click.option("--port", default=443, show_default=True, type=click.IntRange(1, 65535))
@click.option("--inner", default=8000, show_default=True, type=click.IntRange(1, 65535),
              help="Port of `cueladder serve`.")  # fmt: skip
@click.pass_obj
def certificate(config: dict[str, str], name: str, port: int, inner: int) -> None:
    """Make a certificate for this laptop and the settings of a reverse proxy (nginx).

    Run it again within a year: the authority, which the phones trust, stays.
    """
    if not NAME.fullmatch(name):
        raise click.BadParameter("write it like salle.local", param_hint="--name")
    folder = Path(config.get("DATA", "data")).expanduser().resolve() / "tls"
    folder.mkdir(parents=True, exist_ok=True)
    if not (folder / "authority.key").exists():
        _openssl(folder, *_authority(name))
    _sign(folder, name)
    for key in ("authority.key", "key.pem"):
        (folder / key).chmod(0o600)
    site = SITE.substitute(folder=folder, name=name, port=port, inner=inner)
    (folder / "nginx.conf").write_text(site)
    address = f"https://{name}" + ("" if port == 443 else f":{port}")
    click.echo(f"Made {folder}. Now:")
    click.echo(f"1. sudo nginx -c {folder}/nginx.conf")
    click.echo(f"2. Put {folder}/authority.crt (never the key) on each phone and trust it.")
    click.echo(f"3. Open {address}")


def _authority(name: str) -> list[str]:
    return [
        *("req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes"),
        *("-days", str(YEARS * 365), "-subj", f"/CN=Authority of {name}"),
        *("-addext", "keyUsage=critical,keyCertSign,cRLSign"),
        *("-keyout", "authority.key", "-out", "authority.crt"),
    ]


def _sign(folder: Path, name: str) -> None:
    """Make a key and a certificate signed by the authority."""
    request, names = folder / "request.csr", folder / "names.txt"
    names.write_text(
        f"subjectAltName=DNS:{name},DNS:localhost,IP:127.0.0.1\nextendedKeyUsage=serverAuth\n"
    )
    _openssl(folder, "req", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes",
             "-subj", f"/CN={name}", "-keyout", "key.pem", "-out", request.name)  # fmt: skip
    _openssl(folder, "x509", "-req", "-in", request.name, "-CA", "authority.crt", "-CAkey",
             "authority.key", "-CAcreateserial", "-days", str(DAYS), "-extfile", names.name,
             "-out", "cert.pem")  # fmt: skip
    request.unlink()
    names.unlink()


def _openssl(folder: Path, *words: str) -> None:
    if shutil.which("openssl") is None:
        raise click.ClickException("This needs openssl (on Debian: apt install openssl).")
    done = subprocess.run(["openssl", *words], cwd=folder, capture_output=True, text=True)  # noqa: S603, S607
    if done.returncode:
        raise click.ClickException(f"openssl failed: {done.stderr.strip().splitlines()[-1]}")
