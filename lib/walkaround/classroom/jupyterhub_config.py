"""A JupyterHub for a school with one shared machine: a working example. Read it from the top, and change it.

Start it on the machine itself:

    pip install walkaround[hub]
    npm install -g configurable-http-proxy          (the proxy that JupyterHub needs)
    jupyterhub -f jupyterhub_config.py

As it is, this file is for a real school: everybody has an account on the machine, logs in with its password, and works
under it, in a home folder that nobody else may open (chmod 700). That, and not this file, keeps students' sheets apart.
The roster's ids are the names of those accounts. JupyterHub then has to run as root.

To try it without accounts, on your own computer with nobody else on it:

    WALKAROUND_HUB_TRIAL=trial jupyterhub -f jupyterhub_config.py

Any name can then log in with the password “quillmoor”, and every server runs under YOUR account: pages are kept apart,
but anyone who opens a terminal there can read everything that you can. Never use that for a class.
"""

import os

from walkaround.classroom import hub

c = get_config()  # noqa: F821

trial = os.environ.get("WALKAROUND_HUB_TRIAL", "")
trial = trial and os.path.abspath(trial)

# The folder of what is handed out; only root needs to read it.
handed_out = os.environ.get("WALKAROUND_HANDED_OUT", "/srv/walkaround/autumn/handed-out")

# Only this machine can connect. For a classroom, put the school's web server with its certificate in front of it, or
# set c.JupyterHub.ssl_key, c.JupyterHub.ssl_cert and an address in the school's network: passwords must not travel in
# clear.
c.JupyterHub.bind_url = os.environ.get("WALKAROUND_HUB_URL", "http://127.0.0.1:8000")
c.JupyterHub.hub_port = int(os.environ.get("WALKAROUND_HUB_PORT", "8081"))
c.ConfigurableHTTPProxy.command = os.environ.get("WALKAROUND_HUB_PROXY", "configurable-http-proxy")
c.ConfigurableHTTPProxy.api_url = os.environ.get("WALKAROUND_HUB_PROXY_API", "http://127.0.0.1:8001")

if trial:
    c.JupyterHub.authenticator_class = "shared-password"
    c.SharedPasswordAuthenticator.user_password = "quillmoor"
    c.Authenticator.allow_all = True
    c.JupyterHub.spawner_class = "simple"
    c.SimpleLocalProcessSpawner.home_dir_template = os.path.join(trial, "home", "{username}")
    c.JupyterHub.db_url = f"sqlite:///{os.path.join(trial, 'hub.sqlite')}"
    c.JupyterHub.cookie_secret_file = os.path.join(trial, "cookie-secret")
    c.Spawner.args = ["--allow-root"] if os.geteuid() == 0 else []
    c.ConfigurableHTTPProxy.pid_file = os.path.join(trial, "proxy.pid")
else:
    c.JupyterHub.authenticator_class = "pam"
    # Only members of these groups of the machine may log in. The instructors' accounts may see who is logged in.
    c.LocalAuthenticator.allowed_groups = {"students", "instructors"}
    c.LocalAuthenticator.admin_groups = {"instructors"}
    c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"
    # No administrator can look into a student's server from the web page; marking reads the folders.
    c.JupyterHub.load_roles = []

# At each start a student finds what was handed out to them in this folder of their home; their answers stay untouched.
c.Spawner.pre_spawn_hook = hub.hand_out_at_login(handed_out, "walkaround", as_user=not trial)
c.Spawner.notebook_dir = "~"
c.Spawner.default_url = "/lab/tree/walkaround"
c.Spawner.http_timeout = 120
c.Spawner.start_timeout = 120
